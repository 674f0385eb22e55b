/** The host's clocks. Bench time is another thing: microseconds since the bench's boot, see {@code dev.lapwing.bench}. */
package dev.lapwing.time;
