package dev.lapwing.evidence;

import java.io.IOException;

/** Where a log's bytes go. */
interface LogSink extends AutoCloseable {
    void write(byte[] bytes, int length) throws IOException;

    /** Returns when everything written so far would survive a power cut. */
    void force() throws IOException;

    @Override
    void close() throws IOException;
}
