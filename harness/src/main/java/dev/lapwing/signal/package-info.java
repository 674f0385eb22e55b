/** Sampled traces, edges and windows, and what can be read off them. Start with {@link dev.lapwing.signal.Trace}. */
@NullMarked
package dev.lapwing.signal;

import org.jspecify.annotations.NullMarked;
