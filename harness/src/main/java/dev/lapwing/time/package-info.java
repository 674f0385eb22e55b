/**
 * The host's clocks. Bench time is another thing: microseconds since the bench's boot, see {@code dev.lapwing.bench}.
 */
@NullMarked
package dev.lapwing.time;

import org.jspecify.annotations.NullMarked;
