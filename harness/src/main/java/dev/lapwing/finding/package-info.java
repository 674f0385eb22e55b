/** Verdicts, limits, and what is reported of one expectation. Start with {@link dev.lapwing.finding.Finding}. */
@NullMarked
package dev.lapwing.finding;

import org.jspecify.annotations.NullMarked;
