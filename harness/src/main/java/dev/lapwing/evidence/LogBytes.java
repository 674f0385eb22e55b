package dev.lapwing.evidence;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.util.HexFormat;

/** The bytes of a log, in memory or in a file of any length, of which only what is looked at is in memory. */
final class LogBytes {
    /** Where one buffer ends and the next begins; a buffer holds a longest frame more than that. */
    private static final long STEP = 1L << 30;

    private static final int OVERLAP = FrameWriter.HEAD + FrameWriter.PAYLOAD_MAX + FrameWriter.TAIL;
    private static final int DIGESTED = 1 << 20;

    private final ByteBuffer[] buffers;
    private final long size;

    private LogBytes(ByteBuffer[] buffers, long size) {
        this.buffers = buffers;
        this.size = size;
    }

    static LogBytes of(byte[] bytes) {
        return of(bytes, bytes.length);
    }

    /** The first bytes of an array, which is not copied. */
    static LogBytes of(byte[] bytes, int length) {
        return new LogBytes(new ByteBuffer[] {ByteBuffer.wrap(bytes, 0, length)}, length);
    }

    /** Of a file that nobody writes to any more. */
    static LogBytes of(Path file) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            long size = channel.size();
            ByteBuffer[] buffers = new ByteBuffer[Math.toIntExact(Math.max(1, (size + STEP - 1) / STEP))];
            for (int i = 0; i < buffers.length; i++) {
                long from = i * STEP;
                buffers[i] = channel.map(FileChannel.MapMode.READ_ONLY, from, Math.min(STEP + OVERLAP, size - from));
            }
            return new LogBytes(buffers, size);
        }
    }

    long size() {
        return size;
    }

    /** Some of the bytes; at most as many as a longest frame has. */
    ByteBuffer at(long from, int length) {
        ByteBuffer buffer = buffers[(int) (from / STEP)];
        return buffer.slice((int) (from - from / STEP * STEP), length);
    }

    /** SHA-256 of all of it, in lower-case hexadecimal. */
    String sha256() {
        MessageDigest digest = Sha256.start();
        for (long from = 0; from < size; from += DIGESTED) {
            digest.update(at(from, (int) Math.min(DIGESTED, size - from)));
        }
        return HexFormat.of().formatHex(digest.digest());
    }
}
