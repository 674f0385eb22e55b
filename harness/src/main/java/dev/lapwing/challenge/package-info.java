/**
 * Puts the harness itself to the test where the truth is known. Start with
 * {@link dev.lapwing.challenge.CoverageStudy}: whether stated uncertainties hold the truth as often as they say.
 */
@NullMarked
package dev.lapwing.challenge;

import org.jspecify.annotations.NullMarked;
