package dev.lapwing.evidence;

import java.io.IOException;

/** Where the files of one record are kept. */
interface RecordStore {
    String PLAN = "plan.json";
    String LOG = "log.bin";
    String FINDINGS = "findings.json";
    String SUMMARY = "run.json";

    /** What it is, for error messages. */
    String name();

    /** The log's sink; asked for once. */
    LogSink log() throws IOException;

    /** Puts a file in place whole, or not at all. */
    void put(String file, byte[] bytes) throws IOException;

    boolean has(String file);

    byte[] get(String file) throws IOException;

    /** The log once it is closed. */
    LogBytes logBytes() throws IOException;

    /** SHA-256 of a file, in lower-case hexadecimal. */
    default String sha256(String file) throws IOException {
        return file.equals(LOG) ? logBytes().sha256() : Sha256.of(get(file));
    }
}
