/** Sequences as written: stimuli, conditions, expectations, loops, parts. Start with {@link dev.lapwing.sequence.Sequence}. */
package dev.lapwing.sequence;
