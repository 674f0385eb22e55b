package dev.lapwing.bench;

/**
 * Consecutive samples of one stream. The array is row by row: sample 0 of all points, then sample 1.
 *
 * @param stream  the stream, with its points in the order of each row
 * @param t0Us    bench time of sample 0 in µs
 * @param rows    number of samples
 * @param counts  at least rows × points counts
 */
public record SampleBlock(Stream stream, long t0Us, int rows, int[] counts) {}
