package dev.lapwing.evidence;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import java.nio.BufferUnderflowException;
import java.util.ArrayList;
import java.util.List;

/** Unpacks what {@link StreamPacker} packed. */
final class StreamUnpacker {
    private final Stream stream;
    private final int width;
    private final int[] last;
    private final int[] counts;
    /** A frame's bytes; more than the greatest number of counts takes. */
    private final byte[] packed;

    private long nextUs;

    StreamUnpacker(Stream stream) {
        this.stream = stream;
        this.width = stream.points().size();
        this.last = new int[width];
        this.packed = new byte[StreamPacker.ROWS_MAX * width * Long.BYTES];
        this.counts = new int[StreamPacker.ROWS_MAX * width];
    }

    /** Reads a stream's description, its number already taken off. */
    static Stream stream(PayloadReader payload) {
        String name = payload.text();
        long everyUs = payload.count();
        int width = payload.things();
        List<String> points = new ArrayList<>();
        for (int i = 0; i < width; i++) {
            points.add(payload.text());
        }
        return new Stream(name, points, everyUs);
    }

    /** Reads samples, the stream's number already taken off. The block is used again at the next call. */
    SampleBlock samples(PayloadReader payload) {
        long t0Us = nextUs + payload.signed();
        int rows = payload.things();
        if (rows > StreamPacker.ROWS_MAX) {
            throw new IllegalArgumentException(rows + " rows in one frame");
        }
        int end = payload.rest(packed);
        int at = 0;
        for (int column = 0; column < width; column++) {
            int value = last[column];
            for (int row = 0; row < rows; row++) {
                if (at >= end) {
                    throw new BufferUnderflowException();
                }
                long number = packed[at++];
                if (number < 0) {
                    number &= 0x7F;
                    int shift = 0;
                    byte next;
                    do {
                        shift += 7;
                        if (at >= end || shift >= Long.SIZE) {
                            throw new BufferUnderflowException();
                        }
                        next = packed[at++];
                        number |= (long) (next & 0x7F) << shift;
                    } while (next < 0);
                }
                value += (int) (number >>> 1 ^ -(number & 1));
                counts[row * width + column] = value;
            }
            last[column] = value;
        }
        nextUs = t0Us + rows * stream.everyUs();
        return new SampleBlock(stream, t0Us, rows, counts);
    }

    String name() {
        return stream.name();
    }

    int width() {
        return width;
    }

    /** What the next counts differ from, by column. */
    int[] last() {
        return last.clone();
    }
}
