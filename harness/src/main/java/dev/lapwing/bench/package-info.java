/**
 * What a bench is: points, which point carries which signal, calibration, how it is reached
 * ({@link dev.lapwing.bench.BenchFile}), and the {@link dev.lapwing.bench.Bench} that the runner sees.
 */
@NullMarked
package dev.lapwing.bench;

import org.jspecify.annotations.NullMarked;
