/**
 * The pneumatic train behind the brake controller: pipes, valves, reservoirs, cylinders and train wires of any number
 * of vehicles, stepped by a time step and doing no input or output. Start reading at
 * {@link dev.lapwing.plant.TrainSpec} (what a train is) and {@link dev.lapwing.plant.Train} (how it moves).
 *
 * <p>Everything is in SI units. Air is an ideal gas held at the ambient temperature; pressures that cross the package's
 * border are gauge, in pascals, unless a name says absolute. A train computed here states nothing about any real one.
 */
@NullMarked
package dev.lapwing.plant;

import org.jspecify.annotations.NullMarked;
