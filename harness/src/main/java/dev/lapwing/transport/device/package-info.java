/**
 * Serial devices as the system knows them, for whatever speaks over one:
 * {@link dev.lapwing.transport.device.SerialDevice} says why one cannot be opened, and
 * {@link dev.lapwing.transport.device.KeptSignals} keeps what opening one would change.
 */
@NullMarked
package dev.lapwing.transport.device;

import org.jspecify.annotations.NullMarked;
