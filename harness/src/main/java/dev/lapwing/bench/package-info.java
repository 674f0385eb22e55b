/**
 * What a bench is: points, which point carries which signal, calibration, and the
 * {@link dev.lapwing.bench.Bench} that the runner sees.
 */
package dev.lapwing.bench;
