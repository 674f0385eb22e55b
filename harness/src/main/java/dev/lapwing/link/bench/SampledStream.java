package dev.lapwing.link.bench;

import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Samples;
import java.util.Arrays;
import java.util.List;

/** One stream: samples on its grid, gathered into batches. What cannot be sampled in time is left out and said. */
final class SampledStream {
    /** A fault that lasts is not repeated more often than this. */
    private static final long FAULT_EVERY_US = 1_000_000;

    private final HostMessage.Stream order;
    private final LineBudget.Size size;
    private final BenchPoints points;
    private final Outbox outbox;
    private final long originUs;
    /** How late a sample may be taken and still carry its grid's time. */
    private final long lateUsMax;

    private long nextUs;
    private long batchUs;
    private int rows;
    private int[] counts;
    private long faultUs = Long.MIN_VALUE;
    private boolean unreadable;

    SampledStream(
            HostMessage.Stream order,
            List<LinkPoint> sampled,
            LineBudget.Size size,
            BenchPoints points,
            Outbox outbox,
            long nowUs) {
        this.order = order;
        this.size = size;
        this.points = points;
        this.outbox = outbox;
        this.originUs = nowUs;
        this.nextUs = nowUs;
        this.lateUsMax =
                Math.max(0, sampled.stream().mapToInt(LinkPoint::stampUs).min().orElse(0));
        this.counts = new int[order.points().size() * Math.min(order.batch(), 16)];
    }

    HostMessage.Stream order() {
        return order;
    }

    /** Line rate of its samples in bytes/s, at most, with messages of at most so many bytes. */
    double bytesPerSecond(int bytesMax) {
        double flushRows = Math.ceil(order.flushMs() * 1_000.0 / order.everyUs()) + 1;
        double rowsEach = Math.min(Math.min(order.batch(), flushRows), Math.max(1, size.rowsIn(bytesMax)));
        return (size.headBytes() / rowsEach + size.rowBytes()) * 1e6 / order.everyUs();
    }

    void step(long nowUs, int bytesMax) {
        int rowsMax = Math.min(order.batch(), size.rowsIn(bytesMax));
        while (nextUs <= nowUs) {
            if (nowUs - nextUs > lateUsMax) {
                // The instant that is now, if it is one, can still be had.
                overrun((nowUs - nextUs + order.everyUs() - 1) / order.everyUs(), nowUs);
            } else if (outbox.full()) {
                overrun(1, nowUs);
            } else {
                sample(nowUs);
            }
            if (rows >= rowsMax) {
                close();
            }
        }
        if (rows > 0 && nowUs >= flushUs()) {
            close();
        }
    }

    long dueUs() {
        return rows == 0 ? nextUs : Math.min(nextUs, flushUs());
    }

    /** Numbers and sends what has been gathered. */
    void close() {
        if (rows == 0) {
            return;
        }
        int[] batch = Arrays.copyOf(counts, rows * order.points().size());
        long t0Us = batchUs;
        outbox.samples(
                (session, n) -> {
                    Samples samples = new Samples(
                            session, n, order.name(), order.id(), t0Us, order.everyUs(), order.points(), batch);
                    return order.dense() ? samples.asDense() : samples;
                },
                size.bytes(rows));
        rows = 0;
    }

    private long flushUs() {
        return batchUs + order.flushMs() * 1_000L;
    }

    private void sample(long nowUs) {
        int width = order.points().size();
        if ((rows + 1) * width > counts.length) {
            counts = Arrays.copyOf(counts, 2 * counts.length);
        }
        for (int i = 0; i < width; i++) {
            String point = order.points().get(i);
            int count = points.read(point, nowUs);
            if (count == BenchPoints.NOT_READABLE) {
                notReadable(point, nowUs);
                return;
            }
            counts[rows * width + i] = count;
        }
        unreadable = false;
        if (rows++ == 0) {
            batchUs = nextUs;
        }
        nextUs += order.everyUs();
    }

    private void notReadable(String point, long nowUs) {
        close();
        if (!unreadable) {
            outbox.report((session, n) -> new Fault(session, n, nowUs, point, "not-readable"));
        }
        unreadable = true;
        nextUs += order.everyUs();
    }

    private void overrun(long skipped, long nowUs) {
        close();
        if (faultUs == Long.MIN_VALUE || nowUs - faultUs >= FAULT_EVERY_US) {
            faultUs = nowUs;
            outbox.report((session, n) -> new Fault(session, n, nowUs, "", "overrun"));
        }
        nextUs += skipped * order.everyUs();
    }
}
