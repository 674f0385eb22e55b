/**
 * Brake quantities from what a bench recorded, each with its uncertainty. Start with
 * {@link dev.lapwing.measure.Recording} (what there is to read), {@link dev.lapwing.measure.CheckWatch} (live) and
 * {@link dev.lapwing.measure.Measuring} (afterwards); both read with the same evaluators.
 */
@NullMarked
package dev.lapwing.measure;

import org.jspecify.annotations.NullMarked;
