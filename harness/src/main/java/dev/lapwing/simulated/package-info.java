/**
 * A bench in virtual time: plant and unit under test behind the same {@link dev.lapwing.bench.Bench} that real links
 * will use, opened from a bench file, a unit's wiring, its simulation block and a seed. Start with
 * {@link dev.lapwing.simulated.SimulatedBench}. Never reads what a unit is held against.
 */
@NullMarked
package dev.lapwing.simulated;

import org.jspecify.annotations.NullMarked;
