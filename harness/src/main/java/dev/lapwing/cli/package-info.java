/**
 * Commands, wiring, threads and the console: the only place that prints, and the top of the layers. Start with
 * {@link dev.lapwing.cli.Lapwing}; a run begins in {@link dev.lapwing.cli.RunCommand}, commissioning in
 * {@link dev.lapwing.cli.BenchCommand}.
 */
@NullMarked
package dev.lapwing.cli;

import org.jspecify.annotations.NullMarked;
