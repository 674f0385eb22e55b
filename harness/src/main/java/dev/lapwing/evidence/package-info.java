/**
 * Run records. While a run is on, {@link dev.lapwing.evidence.OpenRecord} writes one: the plan, then an append-only log
 * ({@link dev.lapwing.evidence.RunLog}) that survives a crash at any byte, then findings and a summary. Afterwards
 * {@link dev.lapwing.evidence.RunRecord} reads it back, to be judged again, reported and compared, without a bench.
 *
 * <p>Everything that a verdict rests on is in the record; nothing in it depends on the machine but the run's identity
 * and its wall-clock times, and these do not enter {@code evidence-sha256}.
 */
@NullMarked
package dev.lapwing.evidence;

import org.jspecify.annotations.NullMarked;
