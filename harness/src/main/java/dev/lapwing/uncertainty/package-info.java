/**
 * Estimates, their budgets keyed by source, decision rules and their risks; distributions that are drawn where linear
 * propagation does not do ({@link dev.lapwing.uncertainty.MonteCarlo}); random streams by name. Start with
 * {@link dev.lapwing.uncertainty.Estimate}. "GUM" is JCGM 100:2008.
 */
@NullMarked
package dev.lapwing.uncertainty;

import org.jspecify.annotations.NullMarked;
