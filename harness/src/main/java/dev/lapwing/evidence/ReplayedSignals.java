package dev.lapwing.evidence;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Trace;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Traces and edges of a run from its log, calibrated by the bench file, each channel's fixed delay taken off. */
final class ReplayedSignals {
    private final Map<String, Point> points = new HashMap<>();
    private final Map<String, List<Input>> inputs = new HashMap<>();
    private final Map<Signal, Trace> traces = new LinkedHashMap<>();
    private final Map<Signal, Edges> edges = new LinkedHashMap<>();
    /** By stream, for each column the traces that it feeds. */
    private final Map<Stream, List<List<StoredTrace>>> columns = new HashMap<>();

    private long samples;

    ReplayedSignals(BenchFile bench) {
        bench.points().forEach(point -> points.put(point.name(), point));
        bench.inputs()
                .forEach(input -> inputs.computeIfAbsent(input.point(), point -> new ArrayList<>())
                        .add(input));
    }

    void samples(SampleBlock block) {
        List<List<StoredTrace>> fed = columns.computeIfAbsent(block.stream(), this::columns);
        int width = fed.size();
        for (int column = 0; column < width; column++) {
            for (StoredTrace trace : fed.get(column)) {
                for (int row = 0; row < block.rows(); row++) {
                    trace.append(block.t0Us() + row * block.stream().everyUs(), block.counts()[row * width + column]);
                }
            }
        }
        samples += (long) block.rows() * width;
    }

    /** The first edge of a point tells its level at that time. */
    void edge(String point, long atUs, boolean level) {
        long timeUs = atUs - filterUs(point);
        for (Input input : inputs.getOrDefault(point, List.of())) {
            edges.computeIfAbsent(input.signal(), signal -> new Edges(level, timeUs))
                    .append(timeUs, level);
        }
    }

    Map<Signal, Trace> traces() {
        return Collections.unmodifiableMap(traces);
    }

    Map<Signal, Edges> edges() {
        return Collections.unmodifiableMap(edges);
    }

    long samples() {
        return samples;
    }

    private List<List<StoredTrace>> columns(Stream stream) {
        List<List<StoredTrace>> made = new ArrayList<>();
        for (String point : stream.points()) {
            List<StoredTrace> fed = new ArrayList<>();
            for (Input input : inputs.getOrDefault(point, List.of())) {
                input.calibration()
                        .filter(c -> !traces.containsKey(input.signal()))
                        .ifPresent(calibration -> {
                            StoredTrace trace = new StoredTrace(calibration, stream.everyUs(), filterUs(point));
                            traces.put(input.signal(), trace);
                            fed.add(trace);
                        });
            }
            made.add(fed);
        }
        return made;
    }

    private long filterUs(String point) {
        Point known = points.get(point);
        return known == null ? 0 : known.filterUs();
    }
}
