package dev.lapwing.files;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Stream;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.quantity.Dimension;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Reads which points are sampled together, and how often. */
final class StreamReader {
    /** As many as a bench link carries at once. */
    static final int STREAMS_MAX = 4;

    private static final Range EVERY = new Range(50e-6, 60);

    private final Reading reading;
    private final Figures figures;
    private final PointReader points;
    private final Optional<LinkChoice> link;
    private final List<Stream> streams = new ArrayList<>();
    /** Sampled points and the stream of each. */
    private final Map<String, String> sampled = new LinkedHashMap<>();

    StreamReader(Reading reading, PointReader points, Optional<LinkChoice> link) {
        this.reading = reading;
        this.figures = new Figures(reading);
        this.points = points;
        this.link = link;
    }

    void read(Node node) {
        reading.entries(node, "a map from names to streams").ifPresent(map -> {
            map.entries().forEach(this::stream);
            if (map.entries().size() > STREAMS_MAX) {
                String found = map.entries().size() + " streams";
                reading.mistake(map.entries().get(STREAMS_MAX).place(), found, "at most " + STREAMS_MAX, "");
            }
        });
    }

    List<Stream> streams() {
        return streams;
    }

    Set<String> sampled() {
        return sampled.keySet();
    }

    private void stream(Entry entry) {
        PointReader.checkName(reading, entry.key(), entry.place(), "stream");
        reading.form(entry.value(), Shapes.STREAM).ifPresent(form -> {
            long everyUs = form.value("every")
                    .flatMap(n -> figures.figure(n, EVERY, Dimension.TIME))
                    .map(q -> Math.round(q.base() * 1e6))
                    .orElse(1L);
            checkPolled(everyUs, form);
            List<String> names = new ArrayList<>();
            form.value("points").ifPresent(node -> {
                for (Node item : reading.items(node, "a list of points")) {
                    point(item, entry.key()).ifPresent(names::add);
                }
            });
            streams.add(new Stream(entry.key(), names, everyUs));
        });
    }

    /** What is polled is read at every poll, or at every so many. */
    private void checkPolled(long everyUs, Form form) {
        if (link.isPresent()
                && link.get() instanceof LinkChoice.Modbus modbus
                && modbus.pollUs() > 0
                && form.has("every")
                && everyUs % modbus.pollUs() != 0) {
            String expected = "the poll interval of the link, " + modbus.pollUs() / 1000.0 + " ms, or a multiple of it";
            reading.mistake(form.place("every"), "polling gives no samples so often", expected, "");
        }
    }

    private Optional<String> point(Node item, String stream) {
        return points.find(item, kind -> kind == PointKind.ANALOG_IN || kind == PointKind.COUNTER_IN, "'analog-in'")
                .map(Point::name)
                .map(name -> {
                    String before = sampled.putIfAbsent(name, stream);
                    if (before != null) {
                        reading.mistake(
                                item.place(),
                                "point '" + name + "' is sampled by '" + before + "' already",
                                "one stream for each",
                                "");
                    }
                    return name;
                });
    }
}
