/**
 * What every link shares, whatever carries it: {@link dev.lapwing.transport.linked.LinkedBench} is a bench at the other
 * end of a link as the runner sees it, {@link dev.lapwing.transport.linked.ServedBench} keeps the bench's own end in
 * real time. Threads and waiting are here; what is said stands in {@code dev.lapwing.link}, what carries it in the
 * packages beside this one.
 */
@NullMarked
package dev.lapwing.transport.linked;

import org.jspecify.annotations.NullMarked;
