package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.MovingMean;
import dev.lapwing.signal.Spans;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The atoms of a condition at every instant at which one of its signals was read: levels as moving means over {@value
 * Watched#WIDTH_US} µs, each held until the next, wires by their edges. Follows a recording that grows. For one thread.
 */
final class Readings {
    private final Atoms atoms;
    private final Side side;
    private final List<Channel> channels = new ArrayList<>();
    private final int[] channelOf;
    private final double[] values;
    private final Recording recording;
    private long timeUs;
    private boolean begun;

    /** One signal. */
    private static final class Channel {
        private final Optional<MovingMean> mean;
        private final Optional<Edges> edges;
        private final During hidden;
        private final During above;
        private final During below;
        private double held = Double.NaN;
        private double pending;
        private long pendingUs = Long.MAX_VALUE;

        Channel(Signal signal, Recording recording, Unseen unseen, long fromUs) {
            mean = recording
                    .sampled(signal)
                    .map(sampled -> new MovingMean(sampled.trace(), Watched.WIDTH_US, fromUs - Watched.WIDTH_US));
            edges = signal instanceof Signal.Wire wire
                    ? recording.switched(wire).map(Switched::edges)
                    : Optional.empty();
            hidden = new During(unseen.bySignal().getOrDefault(signal, Spans.of()));
            above = new During(unseen.above().getOrDefault(signal, Spans.of()));
            below = new During(unseen.below().getOrDefault(signal, Spans.of()));
        }

        /** Looks for the next reading after that time; later ones may come. */
        private void look(long nowUs) {
            if (mean.isPresent() && pendingUs == Long.MAX_VALUE && mean.get().advance(Long.MAX_VALUE)) {
                pending = mean.get().value();
                pendingUs = mean.get().timeUs();
            } else if (edges.isPresent()) {
                int next = edges.get().firstAfter(nowUs);
                pendingUs = next < edges.get().size() ? edges.get().timeUs(next) : Long.MAX_VALUE;
                pending = edges.get().at(pendingUs) ? 1 : 0;
            }
        }

        private long nextSpanUs() {
            return Math.min(hidden.nextUs(), Math.min(above.nextUs(), below.nextUs()));
        }

        private void take(long nowUs) {
            while (pendingUs <= nowUs) {
                held = pending;
                pendingUs = Long.MAX_VALUE;
                look(nowUs);
            }
            hidden.goTo(nowUs);
            above.goTo(nowUs);
            below.goTo(nowUs);
        }

        /** Before the first reading, as that will be. */
        private double reading() {
            return Double.isNaN(held) ? pending : held;
        }
    }

    /** Whether an instant that goes on lies in one of some stretches. */
    private static final class During {
        private final Spans spans;
        private int next;
        private boolean now;

        During(Spans spans) {
            this.spans = spans;
        }

        /** When it changes next. */
        private long nextUs() {
            if (next >= spans.size()) {
                return Long.MAX_VALUE;
            }
            return now ? spans.toUs(next) : spans.fromUs(next);
        }

        private void goTo(long nowUs) {
            while (nextUs() <= nowUs) {
                next += now ? 1 : 0;
                now = !now;
            }
        }
    }

    Readings(Atoms atoms, Recording recording, Unseen unseen, Side side, long fromUs) {
        this.atoms = atoms;
        this.side = side;
        this.recording = recording;
        this.timeUs = fromUs;
        this.channelOf = new int[atoms.atoms().size()];
        this.values = new double[channelOf.length];
        List<Signal> signals = new ArrayList<>();
        for (int atom = 0; atom < channelOf.length; atom++) {
            Signal signal = atoms.signal(atom);
            if (!signals.contains(signal)) {
                signals.add(signal);
                channels.add(new Channel(signal, recording, unseen, fromUs));
            }
            channelOf[atom] = signals.indexOf(signal);
        }
    }

    /**
     * Goes on to the next instant, the first of which is where it was to begin.
     *
     * @param endUs where the last instant is, whether or not anything was read there, once all before it is known
     * @param all   true if no more will come
     */
    boolean advance(long endUs, boolean all) {
        if (begun && timeUs >= endUs) {
            return false;
        }
        long nextUs = begun ? endUs : timeUs;
        for (Channel channel : channels) {
            channel.look(timeUs);
            channel.take(timeUs);
            nextUs = begun ? Math.min(nextUs, Math.min(channel.pendingUs, channel.nextSpanUs())) : nextUs;
        }
        if (!all && !known(nextUs)) {
            return false;
        }
        begun = true;
        timeUs = nextUs;
        for (Channel channel : channels) {
            channel.take(nextUs);
        }
        for (int atom = 0; atom < values.length; atom++) {
            values[atom] = value(atom);
        }
        return true;
    }

    /** All readings up to there have come. */
    private boolean known(long us) {
        for (Channel channel : channels) {
            if (channel.mean.isPresent() ? channel.pendingUs == Long.MAX_VALUE : recording.untilUs() < us) {
                return false;
            }
        }
        return true;
    }

    private double value(int atom) {
        Channel channel = channels.get(channelOf[atom]);
        if (side != Side.AS_BEFORE) {
            boolean best = side == Side.BEST != atoms.turned().contains(atom);
            // Of what stood at an end of its range only what is beyond may have been.
            During open = best == atoms.sense(atom) > 0 ? channel.above : channel.below;
            if (channel.hidden.now || open.now) {
                return best ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
            }
        }
        if (channel.edges.isPresent()) {
            return atoms.value(atom, channel.edges.get().at(timeUs) ? 1 : 0);
        }
        return atoms.value(atom, channel.reading());
    }

    long timeUs() {
        return timeUs;
    }

    /** Of the atoms, by number; filled anew at each instant. */
    double[] values() {
        return values;
    }
}
