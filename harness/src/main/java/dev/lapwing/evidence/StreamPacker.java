package dev.lapwing.evidence;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import java.util.function.Consumer;

/**
 * Gathers the samples of one stream and packs them: point by point, each count as its difference from the one before,
 * which for a quiet transducer takes a byte or two instead of four.
 */
final class StreamPacker {
    static final int ROWS_MAX = 256;

    private final int number;
    private final Stream stream;
    private final int width;
    private final int[] rows;
    private final int[] last;
    private long t0Us;
    private long nextUs;
    private int size;

    StreamPacker(int number, Stream stream) {
        this.number = number;
        this.stream = stream;
        this.width = stream.points().size();
        this.rows = new int[ROWS_MAX * width];
        this.last = new int[width];
    }

    void describe(Payload payload) {
        payload.count(number).text(stream.name()).count(stream.everyUs()).count(width);
        stream.points().forEach(payload::text);
    }

    /** Takes the block in; {@code full} is called whenever {@link #pack} must be. */
    void add(SampleBlock block, Consumer<StreamPacker> full) {
        if (!block.stream().equals(stream)) {
            throw new IllegalArgumentException("stream " + stream.name() + " changed within a run");
        }
        for (int row = 0; row < block.rows(); row++) {
            long timeUs = block.t0Us() + row * stream.everyUs();
            if (size == ROWS_MAX || size > 0 && timeUs != t0Us + size * stream.everyUs()) {
                full.accept(this);
            }
            if (size == 0) {
                t0Us = timeUs;
            }
            System.arraycopy(block.counts(), row * width, rows, size * width, width);
            size++;
        }
    }

    void drain(Consumer<StreamPacker> full) {
        if (size > 0) {
            full.accept(this);
        }
    }

    /** Packs what was gathered into the payload and starts anew. */
    void pack(Payload payload) {
        payload.count(number).signed(t0Us - nextUs).count(size);
        for (int column = 0; column < width; column++) {
            int before = last[column];
            for (int row = 0; row < size; row++) {
                int count = rows[row * width + column];
                payload.signed((long) count - before);
                before = count;
            }
            last[column] = before;
        }
        nextUs = t0Us + size * stream.everyUs();
        size = 0;
    }
}
