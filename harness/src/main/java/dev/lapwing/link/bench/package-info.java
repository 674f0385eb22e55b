/**
 * The bench's side of the link, as a simulated bench runs it: {@link dev.lapwing.link.bench.BenchSession} does what the
 * contract says a bench does, and drives {@link dev.lapwing.link.bench.BenchPoints}.
 */
@NullMarked
package dev.lapwing.link.bench;

import org.jspecify.annotations.NullMarked;
