package dev.lapwing.link.bench;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.Wire;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The streams that a bench samples. */
final class SampleStreams {
    private final BenchCard card;
    private final BenchPoints points;
    private final Outbox outbox;
    private final LineBudget budget;
    private final Map<String, SampledStream> streams = new LinkedHashMap<>();

    SampleStreams(BenchCard card, BenchPoints points, Outbox outbox, LineBudget budget) {
        this.card = card;
        this.points = points;
        this.outbox = outbox;
        this.budget = budget;
    }

    /** Starts, replaces or ends a stream. */
    void order(HostMessage.Stream order, long nowUs) throws Refusing {
        if (order.points().isEmpty()) {
            end(order.name());
            return;
        }
        if (order.dense() && !card.dense()) {
            throw new Refusing(Refusal.UNSUPPORTED, "dense samples");
        }
        List<LinkPoint> sampled = new ArrayList<>();
        for (String name : order.points()) {
            sampled.add(sampled(name));
        }
        if (order.dense() && !sampled.stream().allMatch(LinkPoint::fitsDense)) {
            throw new Refusing(Refusal.UNSUPPORTED, "dense samples of counts beyond 16 bits with sign");
        }
        LineBudget.Size size = LineBudget.Size.of(order, sampled);
        SampledStream stream = new SampledStream(order, sampled, size, points, outbox, nowUs);
        checkLine(stream, size);
        if (!streams.containsKey(order.name()) && streams.size() == Wire.STREAMS_MAX) {
            throw new Refusing(Refusal.QUEUE_FULL, Wire.STREAMS_MAX + " streams run already");
        }
        end(order.name());
        streams.put(order.name(), stream);
    }

    void step(long nowUs, int beatMs) {
        int bytesMax = budget.messageBytesMax(beatMs);
        streams.values().forEach(stream -> stream.step(nowUs, bytesMax));
    }

    void endAll() {
        streams.values().forEach(SampledStream::close);
        streams.clear();
    }

    long dueUs() {
        return streams.values().stream().mapToLong(SampledStream::dueUs).min().orElse(Long.MAX_VALUE);
    }

    private void end(String name) {
        SampledStream old = streams.remove(name);
        if (old != null) {
            old.close();
        }
    }

    private LinkPoint sampled(String name) throws Refusing {
        LinkPoint point = card.point(name).orElseThrow(() -> new Refusing(Refusal.UNKNOWN_POINT, name));
        if (point.kind().output()) {
            throw new Refusing(Refusal.WRONG_KIND, name + " is an output");
        }
        return point;
    }

    private void checkLine(SampledStream stream, LineBudget.Size size) throws Refusing {
        int bytesMax = budget.messageBytesMax(card.maxBeatMs());
        double others = streams.values().stream()
                .filter(other -> !other.order().name().equals(stream.order().name()))
                .mapToDouble(other -> other.bytesPerSecond(bytesMax))
                .sum();
        if (size.rowsIn(bytesMax) < 1 || !budget.carries(others + stream.bytesPerSecond(bytesMax))) {
            throw new Refusing(Refusal.UNSUPPORTED, "more than the line carries");
        }
    }
}
