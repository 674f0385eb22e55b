/**
 * Estimates, their budgets keyed by source, and decision rules. Start with
 * {@link dev.lapwing.uncertainty.Estimate}. "GUM" is JCGM 100:2008.
 */
@NullMarked
package dev.lapwing.uncertainty;

import org.jspecify.annotations.NullMarked;
