/** Verdicts, limits, and what is reported of one expectation. */
@NullMarked
package dev.lapwing.finding;

import org.jspecify.annotations.NullMarked;
