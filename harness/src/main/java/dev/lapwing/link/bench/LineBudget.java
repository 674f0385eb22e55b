package dev.lapwing.link.bench;

import dev.lapwing.link.HostMessage;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.MessageWriter;
import dev.lapwing.link.Samples;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.Wire;
import java.util.List;

/**
 * How much samples may take of what carries them.
 *
 * @param bytesPerSecond of the line, or {@link #UNLIMITED}
 */
record LineBudget(long bytesPerSecond) {
    static final long UNLIMITED = 0;

    /** The rest is for answers and events. */
    private static final double SHARE_FOR_SAMPLES = 0.97;

    /** Greatest message while that heartbeat limit holds: none takes longer than a sixth of it. */
    int messageBytesMax(int beatMs) {
        if (bytesPerSecond == UNLIMITED) {
            return Wire.BENCH_BYTES_MAX;
        }
        return (int) Math.min(Wire.BENCH_BYTES_MAX, bytesPerSecond * beatMs / 6_000);
    }

    /** Bytes of samples that may wait: a quarter of a second's worth, three times the longest message. */
    long waitingBytesMax() {
        return bytesPerSecond == UNLIMITED ? 64L * Wire.BENCH_BYTES_MAX : bytesPerSecond / 4;
    }

    boolean carries(double bytesPerSecondOfSamples) {
        return bytesPerSecond == UNLIMITED || bytesPerSecondOfSamples <= SHARE_FOR_SAMPLES * bytesPerSecond;
    }

    /**
     * What samples of one stream take, at most.
     *
     * @param headBytes of a message without samples, framing included
     * @param rowBytes  of one sample more
     */
    record Size(int headBytes, double rowBytes) {
        static Size of(HostMessage.Stream order, List<LinkPoint> points) {
            return order.dense() ? ofDense(order) : ofJson(order, points);
        }

        int rowsIn(int bytes) {
            return (int) Math.max(0, (bytes - headBytes) / rowBytes);
        }

        int bytes(int rows) {
            return (int) Math.ceil(headBytes + rows * rowBytes);
        }

        private static Size ofJson(HostMessage.Stream order, List<LinkPoint> points) {
            int head = MessageWriter.json(empty(order)).length + Wire.LINE_EXTRA_BYTES;
            // Two brackets and a comma after it; a comma after each count but the last.
            int row = 2 + points.size();
            for (LinkPoint point : points) {
                row += Math.max(digits(point.min()), digits(point.max()));
            }
            return new Size(head, row);
        }

        private static Size ofDense(HostMessage.Stream order) {
            // The length of the counts takes up to two bytes more than that of none; one code byte in 254 comes on top.
            int head = SerialEncoder.dense(MessageWriter.dense(empty(order))).length + 3;
            return new Size(head, 2.0 * order.points().size() * 255 / 254);
        }

        private static Samples empty(HostMessage.Stream order) {
            return new Samples(
                    order.session(),
                    Wire.NUMBER_MAX,
                    order.name(),
                    order.id(),
                    Wire.NUMBER_MAX,
                    order.everyUs(),
                    order.points(),
                    new int[0]);
        }

        private static int digits(int count) {
            return Integer.toString(count).length();
        }
    }
}
