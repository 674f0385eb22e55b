package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Point;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** What the outputs are to be driven to, and when. Times are bench µs. For any thread. */
final class Orders {
    private final Map<String, Integer> safe = new LinkedHashMap<>();
    private final Map<String, Integer> driven = new HashMap<>();
    private final Set<String> digital;
    private final Map<String, Ramp> ramps = new LinkedHashMap<>();
    private final List<Order> waiting = new ArrayList<>();

    /** Outputs to be driven together. */
    record Order(long id, Map<String, Integer> counts, long atUs, long overUs) {}

    private record Ramp(int from, int to, long startUs, long overUs) {
        int at(long nowUs) {
            double share = Math.min(1, (double) (nowUs - startUs) / overUs);
            return (int) Math.round(from + share * (to - from));
        }
    }

    Orders(BenchFile file) {
        file.points().stream()
                .filter(point -> point.kind().output())
                .sorted(Comparator.comparing(Point::name))
                .forEach(point -> safe.put(point.name(), point.safe()));
        driven.putAll(safe);
        digital = file.points().stream()
                .filter(point -> point.kind().digital())
                .map(Point::name)
                .collect(Collectors.toUnmodifiableSet());
    }

    Map<String, Integer> safe() {
        return safe;
    }

    /** What each output was driven to last. */
    synchronized Map<String, Integer> driven() {
        return Map.copyOf(driven);
    }

    synchronized void add(Order order) {
        waiting.add(order);
        waiting.sort(Comparator.comparingLong(Order::atUs).thenComparingLong(Order::id));
    }

    /** Nothing is to be driven any more; everything is thought to be at its safe count. */
    synchronized void forget() {
        waiting.clear();
        ramps.clear();
        driven.putAll(safe);
    }

    /** Bench time of what is due next; far away if nothing is. */
    synchronized long nextUs() {
        return waiting.isEmpty() ? Long.MAX_VALUE : waiting.get(0).atUs();
    }

    synchronized Optional<Order> due(long nowUs) {
        return nextUs() <= nowUs ? Optional.of(waiting.remove(0)) : Optional.empty();
    }

    /** What is written when an order begins: all of it, or where its ramps begin; what is on or off does not ramp. */
    synchronized Map<String, Integer> begin(Order order, long nowUs) {
        Map<String, Integer> now = new LinkedHashMap<>();
        order.counts().forEach((point, count) -> {
            ramps.remove(point);
            if (order.overUs() > 0 && !digital.contains(point)) {
                ramps.put(point, new Ramp(driven.get(point), count, nowUs, order.overUs()));
                now.put(point, driven.get(point));
            } else {
                now.put(point, count);
            }
        });
        driven.putAll(now);
        return now;
    }

    /** What ramps have come to since they were last asked; ended ones go. */
    synchronized Map<String, Integer> ramped(long nowUs) {
        Map<String, Integer> now = new LinkedHashMap<>();
        ramps.forEach((point, ramp) -> {
            int count = ramp.at(nowUs);
            if (count != driven.get(point)) {
                now.put(point, count);
            }
        });
        ramps.values().removeIf(ramp -> nowUs >= ramp.startUs() + ramp.overUs());
        driven.putAll(now);
        return now;
    }
}
