/** Verdicts, limits, and what is reported of one expectation. */
package dev.lapwing.finding;
