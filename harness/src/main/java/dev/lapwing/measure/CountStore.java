package dev.lapwing.measure;

import dev.lapwing.bench.SampleBlock;

/** Where the raw counts of a recording are: in memory while a run is on, in its record afterwards. For one thread. */
public interface CountStore {
    /** Takes the next samples of a stream in; the number of their first row. */
    int add(SampleBlock block);

    /**
     * Counts of one point.
     *
     * @param stream name of a stream of which there are samples
     * @param column place of the point in the stream
     */
    Counts counts(String stream, int column);
}
