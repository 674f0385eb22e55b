/**
 * A bench in virtual time: plant and unit under test behind the same {@link dev.lapwing.bench.Bench} that real links
 * use, opened from a bench file, a unit's wiring, its simulation block and a seed. Start with
 * {@link dev.lapwing.simulated.SimulatedBench}; {@link dev.lapwing.simulated.SimulatedTerminals} puts the same world at
 * the terminals of a bench that is served over a real link. Never reads what a unit is held against.
 */
@NullMarked
package dev.lapwing.simulated;

import org.jspecify.annotations.NullMarked;
