/**
 * Executes a plan on a bench, stepped by bench time, writes what happens into the run's log, and always ends in the
 * safe state. Judges nothing. Start with {@link dev.lapwing.run.Runner}.
 */
@NullMarked
package dev.lapwing.run;

import org.jspecify.annotations.NullMarked;
