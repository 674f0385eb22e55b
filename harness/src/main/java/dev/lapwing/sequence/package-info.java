/**
 * Sequences as written: stimuli, conditions, expectations, loops, parts. Start with {@link
 * dev.lapwing.sequence.Sequence}.
 */
@NullMarked
package dev.lapwing.sequence;

import org.jspecify.annotations.NullMarked;
