package dev.lapwing.link.host;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.HostMessage.Stream;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Samples;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Up to which bench time everything has come: from there on a lost message may have had something to say. */
final class Coverage {
    /**
     * By how much an edge may be numbered later than it happened, besides its point's glitch time; see the contract.
     */
    private static final long EDGE_DELAY_US = 10_000;

    private final Map<String, Long> nextSampleUs = new HashMap<>();
    /** Streams that may run, of which the bench has not said so yet. */
    private final Set<String> unsure = new HashSet<>();

    private final long edgeDelayUs;
    private long reportUs;

    Coverage(BenchCard card, long nowUs) {
        this.edgeDelayUs = EDGE_DELAY_US
                + card.points().stream().mapToInt(LinkPoint::glitchUs).max().orElse(0);
        this.reportUs = nowUs;
    }

    /** A stream may begin from the greatest bench time that has been seen. */
    void ordered(Stream order, long seenUs) {
        if (!order.points().isEmpty() && nextSampleUs.putIfAbsent(order.name(), seenUs) == null) {
            unsure.add(order.name());
        }
    }

    void answered(Stream order, boolean done) {
        boolean refusedFirst = unsure.remove(order.name()) && !done;
        if (refusedFirst || done && order.points().isEmpty()) {
            nextSampleUs.remove(order.name());
        }
    }

    void saw(Report report) {
        if (report instanceof Samples samples) {
            nextSampleUs.replace(samples.name(), samples.t0Us() + samples.rows() * samples.everyUs());
        }
        reportUs = Math.max(reportUs, report.latestUs());
    }

    /** What was numbered before it is below the next number that it tells, and missed if it has not come. */
    void saw(Pong pong) {
        reportUs = Math.max(reportUs, pong.nowUs());
    }

    List<String> streams() {
        return new ArrayList<>(nextSampleUs.keySet());
    }

    /** The earliest that a message still to come can be about, in µs. */
    long fromUs() {
        long from = reportUs - edgeDelayUs;
        for (long next : nextSampleUs.values()) {
            from = Math.min(from, next);
        }
        return Math.max(0, from);
    }
}
