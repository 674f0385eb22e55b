/**
 * The bench link over a serial line: {@link dev.lapwing.transport.serial.SerialBench} reaches a bench at a device,
 * {@link dev.lapwing.transport.serial.ServedLine} serves one at a pseudo-terminal. The only package that knows the
 * serial library and the one that calls the operating system.
 */
@NullMarked
package dev.lapwing.transport.serial;

import org.jspecify.annotations.NullMarked;
