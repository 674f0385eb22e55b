package dev.lapwing.evidence;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * A frame of samples of which one column is unpacked: what stands before it is passed over eight bytes at a time.
 */
final class PackedColumn {
    private static final VarHandle EIGHT = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    /** The bit of each byte that says that its number goes on. */
    private static final long GOES_ON = 0x8080808080808080L;

    private byte[] bytes = new byte[0];
    private int length;
    private int stream;
    private int rows;
    private ByteBuffer payload = ByteBuffer.allocate(0);

    /** @param in payload of a frame of samples that was read before and makes sense */
    void take(ByteBuffer in) {
        PayloadReader head = new PayloadReader(in);
        stream = (int) head.count();
        head.signed();
        rows = (int) head.count();
        payload = in;
    }

    /** Number of the stream. */
    int stream() {
        return stream;
    }

    int rows() {
        return rows;
    }

    /**
     * Unpacks a column.
     *
     * @param columns how many there are
     * @param before  what the first count differs from
     * @return the last count
     */
    int unpack(int column, int columns, int before, int[] into, int from) {
        int at = copy(column, columns);
        int value = before;
        for (int row = 0; row < rows; row++) {
            byte next = bytes[at++];
            long number = next;
            if (next < 0) {
                number = next & 0x7F;
                int shift = 7;
                do {
                    next = bytes[at++];
                    number |= (long) (next & 0x7F) << shift;
                    shift += 7;
                } while (next < 0);
            }
            value += (int) (number >>> 1 ^ -(number & 1));
            into[from + row] = value;
        }
        return value;
    }

    /** Copies a column, and it may be the others with it; where it begins. */
    private int copy(int column, int columns) {
        int size = payload.remaining();
        // Where the counts move little, each of them is one byte.
        boolean single = size == rows * columns;
        length = single ? rows : size;
        if (bytes.length < length) {
            bytes = new byte[2 * length];
        }
        payload.get(payload.position() + (single ? column * rows : 0), bytes, 0, length);
        return single ? 0 : after((long) column * rows);
    }

    /** Where that many numbers end. */
    private int after(long numbers) {
        int at = 0;
        long left = numbers;
        while (left >= Long.BYTES && at + Long.BYTES <= length) {
            left -= Long.bitCount(~(long) EIGHT.get(bytes, at) & GOES_ON);
            at += Long.BYTES;
        }
        while (left > 0) {
            left -= bytes[at++] < 0 ? 0 : 1;
        }
        return at;
    }
}
