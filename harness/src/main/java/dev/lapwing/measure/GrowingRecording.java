package dev.lapwing.measure;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Along;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A recording made from a bench's reports, live or read back. Tell it every report in the order of the bench; it
 * calibrates, and takes the fixed delays of each channel, filter and tube, off the stamps.
 */
public final class GrowingRecording implements Recording {
    private final BenchFile bench;
    private final CountStore counts;
    private final Map<Signal, Sampled> sampled = new LinkedHashMap<>();
    private final Map<Signal, Switched> switched = new LinkedHashMap<>();
    private final Map<String, Carried> carried = new HashMap<>();
    private final Map<Signal, List<Window>> lost = new HashMap<>();
    /** When the level of each wire was told, changed or not, in µs. */
    private final Map<Signal, List<Long>> told = new HashMap<>();

    private final Set<Signal> signals;
    private final long edgeLateUs;
    private long untilUs = Long.MIN_VALUE;

    /** What a point carries. */
    private record Carried(
            Signal signal,
            Point point,
            long lateUs,
            Optional<CountTrace> trace,
            Instrument instrument,
            Optional<String> stream) {}

    /** One that keeps its counts in memory. */
    public GrowingRecording(BenchFile bench) {
        this(bench, new CountsInMemory());
    }

    /** @param counts keeps the counts, or has them already */
    public GrowingRecording(BenchFile bench, CountStore counts) {
        this.bench = bench;
        this.counts = counts;
        Map<String, Point> points = new HashMap<>();
        bench.points().forEach(point -> points.put(point.name(), point));
        Map<Signal, Boolean> all = new LinkedHashMap<>();
        for (Input input : bench.inputs()) {
            carry(
                    input,
                    Optional.ofNullable(points.get(input.point()))
                            .orElseThrow(() -> new IllegalArgumentException("no point '" + input.point() + "'")));
            all.put(input.signal(), true);
        }
        signals = Collections.unmodifiableSet(all.keySet());
        edgeLateUs = carried.values().stream()
                        .filter(point -> point.trace.isEmpty())
                        .mapToLong(point -> point.point.glitchUs() + point.point.filterUs())
                        .max()
                        .orElse(0)
                + bench.link().arrivalDoubtUs();
    }

    private void carry(Input input, Point point) {
        Optional<CountTrace> trace = input.calibration().map(CountTrace::new);
        Instrument instrument = instrument(input, point);
        long lateUs = point.filterUs() + input.tube().delayUs();
        Optional<String> stream = streamOf(point.name()).map(Stream::name);
        carried.put(point.name(), new Carried(input.signal(), point, lateUs, trace, instrument, stream));
        input.calibration().ifPresent(calibration -> {
            double one = calibration.value(point.min());
            double other = calibration.value(point.max());
            sampled.put(
                    input.signal(),
                    new Sampled(
                            trace.orElseThrow(),
                            instrument,
                            Math.min(one, other),
                            Math.max(one, other),
                            everyUs(point.name())));
        });
    }

    private Instrument instrument(Input input, Point point) {
        Optional<Calibration> calibration = input.calibration();
        return new Instrument(
                point.name(),
                calibration.map(Calibration::standard).orElse(0.0),
                calibration.map(Calibration::drift).orElse(0.0),
                calibration.map(Calibration::along).orElse(Along.CONSTANT),
                calibration.map(Calibration::resolution).orElse(0.0),
                calibration.map(Calibration::noise).orElse(0.0),
                point.stampUs() + bench.link().arrivalDoubtUs(),
                bench.link().stampsAtSource(),
                input.tube().withinUs(),
                bench.name(),
                bench.clockRateBound());
    }

    /** A point in several streams is read from the quickest alone, so that its samples come from one grid. */
    private Optional<Stream> streamOf(String point) {
        return bench.streams().stream()
                .filter(stream -> stream.points().contains(point))
                .min(Comparator.comparingLong(Stream::everyUs));
    }

    private long everyUs(String point) {
        return streamOf(point).map(Stream::everyUs).orElse(0L);
    }

    /** Samples were reported. */
    public void samples(SampleBlock block) {
        Stream stream = block.stream();
        int row = counts.add(block);
        for (int column = 0; column < stream.points().size(); column++) {
            Carried to = carried.get(stream.points().get(column));
            if (to != null
                    && to.trace.isPresent()
                    && to.stream.filter(stream.name()::equals).isPresent()) {
                long t0Us = block.t0Us() - to.lateUs;
                Counts kept = counts.counts(stream.name(), column);
                to.trace.get().append(t0Us, stream.everyUs(), block.rows(), row, kept);
            }
        }
        if (block.rows() > 0) {
            reportedUntil(block.t0Us() + (block.rows() - 1) * stream.everyUs());
        }
    }

    /** A digital point changed, or its level was told. */
    public void edge(String point, long atUs, boolean level) {
        Carried to = carried.get(point);
        if (to != null && to.trace.isEmpty()) {
            long eventUs = atUs - to.lateUs;
            told.computeIfAbsent(to.signal, s -> new ArrayList<>()).add(eventUs);
            switched.computeIfAbsent(to.signal, s -> new Switched(new Edges(level, eventUs), to.instrument))
                    .edges()
                    .append(eventUs, level);
        }
        reportedUntil(atUs);
    }

    /** Reports of a stream or point were lost for good. */
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        Window window = new Window(fromUs, Math.max(fromUs, toUs));
        for (Stream stream : bench.streams()) {
            if (stream.name().equals(streamOrPoint)) {
                stream.points().forEach(point -> lose(point, window));
                return;
            }
        }
        lose(streamOrPoint, window);
    }

    private void lose(String point, Window window) {
        Carried from = carried.get(point);
        if (from != null) {
            // What happened is stamped later by the fixed delay, and an edge reported later by the shortest pulse.
            long earlierUs = window.fromUs() - from.lateUs - from.point.glitchUs();
            lost.computeIfAbsent(from.signal, s -> new ArrayList<>()).add(new Window(earlierUs, window.toUs()));
        }
    }

    /**
     * Every report up to that bench time has been told. An edge is reported once it has outlasted the shortest pulse
     * that its point sees, and stamped earlier than it is told where this host stamps; so what is known of edges ends
     * that much earlier.
     */
    public void reportedUntil(long us) {
        untilUs = Math.max(untilUs, us - edgeLateUs);
    }

    /** The longest fixed delay of a channel, in µs: what happens is stamped later by no more than that. */
    public long delayUs() {
        return carried.values().stream().mapToLong(Carried::lateUs).max().orElse(0);
    }

    @Override
    public Set<Signal> signals() {
        return signals;
    }

    @Override
    public Optional<Sampled> sampled(Signal signal) {
        return Optional.ofNullable(sampled.get(signal));
    }

    @Override
    public Optional<Switched> switched(Signal.Wire wire) {
        return Optional.ofNullable(switched.get(wire));
    }

    @Override
    public List<Window> lost(Signal signal) {
        List<Window> windows = lost.getOrDefault(signal, List.of());
        return signal instanceof Signal.Wire wire
                ? windows.stream().map(window -> unknown(wire, window)).toList()
                : Collections.unmodifiableList(windows);
    }

    /** A wire of which a change may have been lost is known again when its level is told next. */
    private Window unknown(Signal.Wire wire, Window lost) {
        long untilToldUs = told.getOrDefault(wire, List.of()).stream()
                .mapToLong(Long::longValue)
                .filter(us -> us >= lost.toUs())
                .min()
                .orElse(Math.max(untilUs, lost.toUs()));
        return new Window(lost.fromUs(), untilToldUs);
    }

    @Override
    public long untilUs() {
        return untilUs;
    }
}
