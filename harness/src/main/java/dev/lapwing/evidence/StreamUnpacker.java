package dev.lapwing.evidence;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import java.util.ArrayList;
import java.util.List;

/** Unpacks what {@link StreamPacker} packed. */
final class StreamUnpacker {
    private final Stream stream;
    private final int width;
    private final int[] last;
    private final int[] counts;
    private long nextUs;

    StreamUnpacker(Stream stream) {
        this.stream = stream;
        this.width = stream.points().size();
        this.last = new int[width];
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
        for (int column = 0; column < width; column++) {
            int value = last[column];
            for (int row = 0; row < rows; row++) {
                value += (int) payload.signed();
                counts[row * width + column] = value;
            }
            last[column] = value;
        }
        nextUs = t0Us + rows * stream.everyUs();
        return new SampleBlock(stream, t0Us, rows, counts);
    }
}
