package dev.lapwing.transport.linked;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.BenchMessage.Safe;
import dev.lapwing.link.BenchMessage.State;
import dev.lapwing.link.Samples;
import dev.lapwing.link.host.HostEvent;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** Turns what a bench reports over its link into what the runner's listener hears. For the runner's thread. */
final class Reports {
    /** Instead of the bench's own word for why it became safe. */
    private static final String UNTOLD = "untold";

    private static final long NEVER = Long.MAX_VALUE;
    /** Of a stream's point its samples tell it, by what they show or by their gap. */
    private static final Set<String> SEEN_IN_SAMPLES = Set.of("overrun", "over-range", "not-readable");

    private final Set<String> wires = new HashSet<>();
    private final Set<String> streams = new HashSet<>();
    private final Map<String, Ordered> ordered = new HashMap<>();
    private final Map<String, Level> levels = new TreeMap<>();
    /** What was told to be wrong before the run, by point and word. */
    private final Map<String, Fault> wrong = new TreeMap<>();

    private long latestUs;
    private boolean greets;
    private boolean toldSafe;
    /** Reports from this number on were made after the arming, until it is told that the bench became safe. */
    private long armedFromN = NEVER;
    /** What was lost since the levels of all wires were told last; an edge may have been in it. */
    private Optional<HostEvent.Lost> unsure = Optional.empty();

    /** How a wire is, by the report of the greatest number that told it. */
    private record Level(boolean on, long n, long atUs) {}

    /** A stream, and the order by which the bench samples it. */
    private record Ordered(Stream stream, int order) {}

    Reports(BenchFile file) {
        file.inputs().stream()
                .filter(input -> input.signal().digital())
                .map(Input::point)
                .forEach(wires::add);
        file.streams().forEach(stream -> streams.add(stream.name()));
    }

    /** Everything so far was before the run that begins: only levels and faults are kept of it, and told anew. */
    void forget(Iterable<HostEvent> before) {
        for (HostEvent event : before) {
            if (event instanceof HostEvent.Reported reported) {
                note(reported.report());
            } else if (event instanceof HostEvent.Lost lost) {
                unsure = Optional.of(lost);
            }
        }
        ordered.clear();
        greets = true;
        toldSafe = false;
        armedFromN = NEVER;
    }

    /** From now on samples of that stream are those of that order. */
    void streams(Stream stream, int order) {
        ordered.put(stream.name(), new Ordered(stream, order));
    }

    /** @param next the first number that the bench can have given since it was armed */
    void armed(long next) {
        armedFromN = next;
    }

    /** Tells the levels of all wires and what is wrong already, once after {@link #forget}. */
    void greet(BenchListener listener) {
        if (greets) {
            greets = false;
            levels.forEach((point, level) -> listener.edge(point, latestUs, level.on()));
            wrong.values().forEach(fault -> listener.fault(latestUs, fault.point(), fault.why()));
            unsure.ifPresent(lost -> lost(
                    new HostEvent.Lost(lost.fromN(), lost.toN(), lost.fromUs(), Math.max(lost.toUs(), latestUs + 1)),
                    listener));
        }
    }

    private void note(Report report) {
        latestUs = Math.max(latestUs, report.latestUs());
        if (report instanceof Edge edge && wires.contains(edge.point())) {
            newer(edge.point(), new Level(edge.to(), edge.n(), edge.tUs()));
            wrong.values().removeIf(fault -> fault.point().equals(edge.point()));
        } else if (report instanceof Fault fault
                && (wires.contains(fault.point()) || !SEEN_IN_SAMPLES.contains(fault.why()))) {
            wrong.put(fault.point() + " " + fault.why(), fault);
        } else if (report instanceof State state) {
            state.digital().forEach((point, level) -> {
                if (wires.contains(point)) {
                    newer(point, new Level(level, state.n(), state.tUs()));
                }
            });
            settledBy(state);
        }
    }

    /** Whether a state tells how the wires are after something was lost; from there on they are known again. */
    private boolean settledBy(State state) {
        boolean settled = unsure.filter(lost -> state.tUs() >= lost.toUs()).isPresent();
        unsure = settled ? Optional.empty() : unsure;
        return settled;
    }

    void tell(Report report, BenchListener listener) {
        if (report instanceof Samples samples) {
            samples(samples, listener);
        } else if (report instanceof Edge edge && wires.contains(edge.point())) {
            edge(edge, listener);
        } else if (report instanceof State state) {
            boolean settled = settledBy(state);
            state.digital().forEach((point, level) -> {
                // Of a wire that nothing was told of yet; whatever happens to it from there on comes as an edge.
                boolean untold = !levels.containsKey(point);
                if (wires.contains(point)
                        && newer(point, new Level(level, state.n(), state.tUs()))
                        && (untold || settled)) {
                    listener.edge(point, state.tUs(), level);
                }
            });
            if (!state.armed() && state.n() >= armedFromN) {
                // Its report of that is missing; it is safe all the same.
                becameSafe(state.tUs(), UNTOLD, listener);
            }
        } else if (report instanceof Safe safe) {
            becameSafe(safe.tUs(), safe.why(), listener);
        } else if (report instanceof Fault fault) {
            listener.fault(fault.tUs(), fault.point(), fault.why());
        }
    }

    /** One that comes after a later one of its wire says nothing of how that is now, but that it was not always so. */
    private void edge(Edge edge, BenchListener listener) {
        if (newer(edge.point(), new Level(edge.to(), edge.n(), edge.tUs()))) {
            listener.edge(edge.point(), edge.tUs(), edge.to());
        } else {
            listener.lost(edge.point(), edge.tUs(), levels.get(edge.point()).atUs());
        }
    }

    /** Keeps the level, unless a later report told one already. */
    private boolean newer(String point, Level level) {
        return levels.merge(point, level, (known, told) -> told.n() > known.n() ? told : known) == level;
    }

    private void becameSafe(long atUs, String why, BenchListener listener) {
        armedFromN = NEVER;
        toldSafe = true;
        listener.safe(atUs, why);
    }

    /** Whether it was told since {@link #forget} that the bench became safe. */
    boolean toldSafe() {
        return toldSafe;
    }

    private void samples(Samples samples, BenchListener listener) {
        Ordered from = ordered.get(samples.name());
        if (from == null || from.order != samples.of()) {
            return;
        }
        boolean asOrdered = samples.points().equals(from.stream.points()) && samples.everyUs() == from.stream.everyUs();
        if (asOrdered) {
            listener.samples(new SampleBlock(from.stream, samples.t0Us(), samples.rows(), samples.counts()));
        } else {
            listener.lost(samples.name(), samples.t0Us(), samples.latestUs());
        }
    }

    /** What is missing may have been about any stream and any wire. */
    void lost(HostEvent.Lost lost, BenchListener listener) {
        unsure = Optional.of(lost);
        streams.forEach(stream -> listener.lost(stream, lost.fromUs(), lost.toUs()));
        wires.forEach(wire -> listener.lost(wire, lost.fromUs(), lost.toUs()));
    }
}
