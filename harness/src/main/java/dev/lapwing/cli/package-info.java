/** Commands, wiring, threads and the console: the only place that prints, and the top of the layers. */
@NullMarked
package dev.lapwing.cli;

import org.jspecify.annotations.NullMarked;
