package dev.lapwing.evidence;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.ByteBuffer;

/** Reads what {@link Payload} wrote. Throws {@link java.nio.BufferUnderflowException} where the bytes end too early. */
final class PayloadReader {
    private final ByteBuffer bytes;

    PayloadReader(ByteBuffer bytes) {
        this.bytes = bytes;
    }

    int octet() {
        return bytes.get() & 0xFF;
    }

    long count() {
        long value = 0;
        for (int shift = 0; shift < 64; shift += 7) {
            int next = octet();
            value |= (long) (next & 0x7F) << shift;
            if (next < 0x80) {
                return value;
            }
        }
        throw new IllegalArgumentException("a number of more than 64 bits");
    }

    /** A count of things that each take at least one byte, so that a damaged one cannot ask for the whole memory. */
    int things() {
        long count = count();
        if (count < 0 || count > bytes.remaining()) {
            throw new IllegalArgumentException(count + " things in " + bytes.remaining() + " bytes");
        }
        return (int) count;
    }

    long signed() {
        long value = count();
        return value >>> 1 ^ -(value & 1);
    }

    double real() {
        return bytes.getDouble();
    }

    boolean flag() {
        return octet() != 0;
    }

    String text() {
        return new String(raw(things()), UTF_8);
    }

    byte[] raw(int length) {
        byte[] taken = new byte[length];
        bytes.get(taken);
        return taken;
    }

    /** Takes what is left, as much of it as there is room for; how much that was. */
    int rest(byte[] into) {
        int length = Math.min(into.length, bytes.remaining());
        bytes.get(into, 0, length);
        return length;
    }
}
