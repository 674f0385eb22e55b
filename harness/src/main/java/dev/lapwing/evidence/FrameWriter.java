package dev.lapwing.evidence;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;

/**
 * Puts frames into a log. A frame: length of the payload (4 bytes, big endian), type (1), check of these five (the low
 * 16 bits of their CRC-32), payload, CRC-32 of everything before it in the frame. The check of the head tells a damaged
 * length from a log that was cut.
 */
final class FrameWriter implements AutoCloseable {
    static final byte[] MAGIC = "LAPWLOG1".getBytes(US_ASCII);
    static final int HEAD = 7;
    static final int TAIL = 4;
    /** Longest payload; a longer one is a bug here and damage in a file. */
    static final int PAYLOAD_MAX = 1 << 24;

    private static final int BUFFER = 1 << 16;

    private final LogSink sink;
    private final String name;
    private final CRC32 crc = new CRC32();
    private final Payload buffer = new Payload();
    private @Nullable RecordFailure failure;

    /** @param name what the sink is, for error messages */
    FrameWriter(LogSink sink, String name) {
        this.sink = sink;
        this.name = name;
        buffer.raw(MAGIC);
    }

    void frame(FrameType type, Payload payload) {
        if (payload.size() > PAYLOAD_MAX) {
            throw new IllegalArgumentException(type + " of " + payload.size() + " bytes");
        }
        byte[] head = ByteBuffer.allocate(5)
                .putInt(payload.size())
                .put((byte) type.code())
                .array();
        crc.reset();
        crc.update(head);
        int check = (int) crc.getValue();
        byte[] checked = {(byte) (check >>> 8), (byte) check};
        crc.update(checked);
        crc.update(payload.bytes(), 0, payload.size());
        buffer.raw(head).raw(checked).raw(payload.bytes(), payload.size());
        buffer.raw(ByteBuffer.allocate(4).putInt((int) crc.getValue()).array());
        if (buffer.size() >= BUFFER) {
            push();
        }
    }

    /** Hands everything to the operating system. */
    void push() {
        attempt(() -> {
            sink.write(buffer.bytes(), buffer.size());
            buffer.clear();
        });
    }

    /** Hands everything to the operating system and waits until it is on the disk. */
    void force() {
        push();
        attempt(sink::force);
    }

    /** Hands over what is left and lets go of the sink; after a failure, which was told, it only lets go. */
    @Override
    public void close() {
        try {
            if (failure == null) {
                push();
            }
        } finally {
            letGo();
        }
    }

    private void letGo() {
        try {
            sink.close();
        } catch (IOException e) {
            if (failure == null) {
                failure = unwritable(e);
                throw failure;
            }
        }
    }

    private void attempt(Writing writing) {
        if (failure != null) {
            // Another object each time: whoever closes while the first is under way may hang this one on it.
            throw new RecordFailure(failure.getMessage(), failure);
        }
        try {
            writing.run();
        } catch (IOException e) {
            failure = unwritable(e);
            throw failure;
        }
    }

    private RecordFailure unwritable(IOException e) {
        return new RecordFailure(name + ": the run record cannot be written: " + DiskReason.of(e), e);
    }

    private interface Writing {
        void run() throws IOException;
    }
}
