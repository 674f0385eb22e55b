package dev.lapwing.evidence;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.ByteBuffer;
import java.util.Arrays;

/** Bytes of a frame in the making. Whole numbers take seven bits a byte, least significant first. */
final class Payload {
    private byte[] bytes = new byte[256];
    private int size;

    Payload clear() {
        size = 0;
        return this;
    }

    Payload octet(int value) {
        room(1);
        bytes[size++] = (byte) value;
        return this;
    }

    /** A number that is never below 0. */
    Payload count(long value) {
        room(10);
        long rest = value;
        while ((rest & ~0x7FL) != 0) {
            bytes[size++] = (byte) (rest & 0x7F | 0x80);
            rest >>>= 7;
        }
        bytes[size++] = (byte) rest;
        return this;
    }

    /** A number of either sign; small ones stay short. */
    Payload signed(long value) {
        return count(value << 1 ^ value >> 63);
    }

    Payload real(double value) {
        room(8);
        ByteBuffer.wrap(bytes, size, 8).putDouble(value);
        size += 8;
        return this;
    }

    Payload flag(boolean value) {
        return octet(value ? 1 : 0);
    }

    Payload text(String text) {
        byte[] encoded = text.getBytes(UTF_8);
        return count(encoded.length).raw(encoded);
    }

    Payload raw(byte[] more) {
        return raw(more, more.length);
    }

    Payload raw(byte[] more, int length) {
        room(length);
        System.arraycopy(more, 0, bytes, size, length);
        size += length;
        return this;
    }

    byte[] bytes() {
        return bytes;
    }

    int size() {
        return size;
    }

    private void room(int more) {
        if (size + more > bytes.length) {
            bytes = Arrays.copyOf(bytes, Math.max(bytes.length * 2, size + more));
        }
    }
}
