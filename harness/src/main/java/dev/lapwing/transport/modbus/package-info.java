/**
 * Off-the-shelf input and output modules over Modbus RTU, behind the runner's bench:
 * {@link dev.lapwing.transport.modbus.ModbusBench}. The only package that knows the Modbus library.
 */
@NullMarked
package dev.lapwing.transport.modbus;

import org.jspecify.annotations.NullMarked;
