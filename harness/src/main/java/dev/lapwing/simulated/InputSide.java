package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.Stream;
import dev.lapwing.naming.Signal;
import dev.lapwing.uncertainty.Streams;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleSupplier;

/** The input side of the bench: transducers read in streams, wires watched for edges. */
final class InputSide {
    /** What the inputs are connected to. */
    interface Sensing {
        /** The true value of a signal now, in the base unit of its dimension; 0 or 1 for a wire. */
        DoubleSupplier of(Signal signal) throws BenchFailure;
    }

    private final BenchFile file;
    private final SimulatedClock clock;
    private final List<Transducer> transducers = new ArrayList<>();
    private final Map<String, Integer> channels = new HashMap<>();
    private final DoubleSupplier[] sampled;
    private final double[] now;
    private final List<DoubleSupplier> levels = new ArrayList<>();
    private final Map<String, Integer> wires = new HashMap<>();
    private final List<EdgeDetector> detectors = new ArrayList<>();
    private final TruthHistory history;
    private List<StreamSampler> samplers = List.of();
    private boolean greeted;

    InputSide(BenchFile file, LinkChoice.Simulated figures, Sensing world, SimulatedClock clock, Streams streams)
            throws BenchFailure {
        this.file = file;
        this.clock = clock;
        Map<String, Point> points = new HashMap<>();
        file.points().forEach(point -> points.put(point.name(), point));
        List<DoubleSupplier> truths = new ArrayList<>();
        for (Input input : file.inputs()) {
            Point point = points.get(input.point());
            DoubleSupplier truth = world.of(input.signal());
            if (input.signal().digital()) {
                wires.put(point.name(), levels.size());
                levels.add(truth);
                detectors.add(new EdgeDetector(point, clock, streams));
            } else {
                channels.put(point.name(), transducers.size());
                transducers.add(new Transducer(input, point, figures, streams));
                truths.add(truth);
            }
        }
        sampled = truths.toArray(DoubleSupplier[]::new);
        now = new double[sampled.length];
        long lagNs = transducers.stream().mapToLong(Transducer::lagNs).max().orElse(0);
        history = new TruthHistory(now.length, Math.max(0, lagNs) + Math.round(2e9 * figures.stepSeconds()));
    }

    /** Whether a signal is connected to that point. */
    boolean carries(String point) {
        return channels.containsKey(point) || wires.containsKey(point);
    }

    /** Count at a point that carries a signal, at a true time up to the last that was noted. */
    int read(String point, long nowNs) {
        Integer channel = channels.get(point);
        if (channel == null) {
            return levels.get(wires.get(point)).getAsDouble() != 0 ? 1 : 0;
        }
        Transducer transducer = transducers.get(channel);
        return transducer.sample(history.at(channel, nowNs - transducer.lagNs()));
    }

    /** Starts the streams of the bench file; the first sample comes one interval later. */
    void start(long nowUs) throws BenchFailure {
        List<StreamSampler> started = new ArrayList<>();
        for (Stream stream : file.streams()) {
            List<Transducer> read = new ArrayList<>();
            int[] from = new int[stream.points().size()];
            for (int i = 0; i < from.length; i++) {
                Integer channel = channels.get(stream.points().get(i));
                if (channel == null) {
                    throw new BenchFailure("unknown-point: stream '" + stream.name() + "' samples '"
                            + stream.points().get(i) + "', which carries no signal");
                }
                from[i] = channel;
                read.add(transducers.get(channel));
            }
            started.add(new StreamSampler(stream, clock, history, read, from, nowUs + stream.everyUs()));
        }
        samplers = started;
    }

    /** Tells the level of every wire, once. */
    void greet(long nowNs, BenchListener listener) {
        if (!greeted) {
            greeted = true;
            watch(nowNs, listener);
        }
    }

    /** Notes the truth at an instant. */
    void note(long nowNs) {
        for (int i = 0; i < sampled.length; i++) {
            now[i] = sampled[i].getAsDouble();
        }
        history.note(nowNs, now);
    }

    /** Samples and watches up to an instant, after the truth at it was noted. */
    void look(long nowNs, BenchListener listener) {
        watch(nowNs, listener);
        for (int i = 0; i < samplers.size(); i++) {
            samplers.get(i).sample(nowNs, listener);
        }
    }

    private void watch(long nowNs, BenchListener listener) {
        for (int i = 0; i < detectors.size(); i++) {
            detectors.get(i).look(levels.get(i).getAsDouble() != 0, nowNs, listener);
        }
    }

    /** Hands on what was sampled and not handed on yet. */
    void flush(BenchListener listener) {
        for (int i = 0; i < samplers.size(); i++) {
            samplers.get(i).flush(listener);
        }
    }
}
