package dev.lapwing.evidence;

import java.io.FileNotFoundException;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/** A record in memory, for runs of which nobody keeps the record. */
final class MemoryStore implements RecordStore {
    private final Map<String, byte[]> files = new HashMap<>();
    private final Payload log = new Payload();

    @Override
    public String name() {
        return "record in memory";
    }

    @Override
    public LogSink log() {
        return new LogSink() {
            @Override
            public void write(byte[] bytes, int length) {
                log.raw(bytes, length);
            }

            @Override
            public void force() {
                // Memory has nothing to be forced to.
            }

            @Override
            public void close() {
                // Nothing was opened.
            }
        };
    }

    @Override
    public void put(String file, byte[] bytes) {
        files.put(file, bytes.clone());
    }

    @Override
    public boolean has(String file) {
        return file.equals(LOG) || files.containsKey(file);
    }

    @Override
    public byte[] get(String file) throws FileNotFoundException {
        if (file.equals(LOG)) {
            return Arrays.copyOf(log.bytes(), log.size());
        }
        byte[] bytes = files.get(file);
        if (bytes == null) {
            throw new FileNotFoundException(file);
        }
        return bytes.clone();
    }

    @Override
    public LogBytes logBytes() {
        return LogBytes.of(log.bytes(), log.size());
    }
}
