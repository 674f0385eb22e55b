package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.LevelCrossing;
import dev.lapwing.signal.MovingMean;
import dev.lapwing.signal.StraightLine;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Input;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** A condition or a part of one, as something with two states that is known up to some bench time. */
sealed interface Watched {

    /** Pressures are averaged over this width before they are held against a level, in µs. */
    long WIDTH_US = 20_000;

    void advance();

    long knownUntilUs();

    boolean at(long timeUs);

    /** Bench time of the first change after that time; {@link Long#MAX_VALUE} if none is known. */
    long nextChangeUs(long afterUs);

    /**
     * What is doubtful of a change at that very instant, in s; nothing if it did not change then.
     *
     * @param seconds the time that ends at this instant, in s
     */
    List<Component> doubts(long atUs, double seconds);

    static Watched of(PlannedCondition condition, long fromUs, Recording recording, Ease ease) {
        if (condition instanceof PlannedCondition.Above above) {
            return new AtLevel(above.signal(), true, above.level(), fromUs, recording, ease);
        }
        if (condition instanceof PlannedCondition.Below below) {
            return new AtLevel(below.signal(), false, below.level(), fromUs, recording, ease);
        }
        if (condition instanceof PlannedCondition.WireIs wire) {
            return new WireAt(wire.wire(), wire.on(), recording);
        }
        if (condition instanceof PlannedCondition.AllOf all) {
            return new Together(true, parts(all.parts(), fromUs, recording, ease));
        }
        PlannedCondition.AnyOf any = (PlannedCondition.AnyOf) condition;
        return new Together(false, parts(any.parts(), fromUs, recording, ease));
    }

    private static List<Watched> parts(List<PlannedCondition> conditions, long fromUs, Recording recording, Ease ease) {
        return conditions.stream()
                .map(part -> of(part, fromUs, recording, ease))
                .toList();
    }

    /** A sampled signal above or below a level. */
    final class AtLevel implements Watched {
        /** A change by so many standard deviations of one sample is told apart from noise. */
        private static final int CLEAR = 8;
        /** A slope that only shows over more than this to either side tells no time, in µs. */
        private static final long HALF_WIDTH_MAX_US = 2_560_000;

        private final Signal signal;
        private final boolean above;
        private final double level;
        private final Optional<MovingMean> mean;
        private final Optional<Sampled> sampled;
        private Optional<Edges> truth = Optional.empty();
        private long lastUs = Long.MIN_VALUE;
        private double last;

        AtLevel(Signal signal, boolean above, double level, long fromUs, Recording recording, Ease ease) {
            this.signal = signal;
            this.sampled = recording.sampled(signal);
            double easier = sampled.map(ease::of).orElse(0.0);
            this.above = above;
            this.level = above ? level - easier : level + easier;
            this.mean = sampled.map(s -> new MovingMean(s.trace(), WIDTH_US, fromUs - WIDTH_US));
        }

        @Override
        public void advance() {
            while (mean.isPresent() && mean.get().advance(Long.MAX_VALUE)) {
                take(mean.get().timeUs(), mean.get().value());
            }
        }

        private void take(long timeUs, double value) {
            boolean beyond = above ? value > level : value < level;
            if (truth.isEmpty()) {
                truth = Optional.of(new Edges(beyond, timeUs));
            } else if (beyond != truth.get().last()) {
                long atUs = step(timeUs, beyond == above)
                        .map(step -> timeUs - WIDTH_US + Math.round(step.seconds() * 1e6))
                        .orElseGet(() -> lastUs + Math.round((level - last) / (value - last) * (timeUs - lastUs)));
                long newestUs = truth.get().size() == 0
                        ? truth.get().fromUs()
                        : truth.get().timeUs(truth.get().size() - 1);
                truth.get().append(Math.max(newestUs + 1, atUs), beyond);
            }
            last = value;
            lastUs = timeUs;
        }

        /** A mean smears a step over its width; where the samples make one through the level, they tell the time. */
        private Optional<LevelCrossing> step(long aboutUs, boolean rising) {
            Sampled channel = sampled.orElseThrow();
            return LevelCrossing.step(
                    channel.trace(),
                    level,
                    rising,
                    new Window(aboutUs - WIDTH_US, aboutUs + WIDTH_US),
                    Channels.sampleNoise(channel.instrument()),
                    channel.everyUs());
        }

        /** A step may be found to lie before the newest mean by the width of one. */
        @Override
        public long knownUntilUs() {
            return lastUs == Long.MIN_VALUE ? lastUs : lastUs - WIDTH_US;
        }

        @Override
        public boolean at(long timeUs) {
            return truth.isPresent() && truth.get().at(timeUs);
        }

        @Override
        public long nextChangeUs(long afterUs) {
            return Watched.nextChangeUs(truth, afterUs);
        }

        @Override
        public List<Component> doubts(long atUs, double seconds) {
            if (nextChangeUs(atUs - 1) != atUs) {
                return List.of();
            }
            Sampled channel = sampled.orElseThrow();
            Window region = new Window(atUs - WIDTH_US, atUs + WIDTH_US);
            List<Component> parts = new ArrayList<>();
            parts.addAll(Timing.instant(channel.instrument(), 1));
            parts.add(Timing.clock(channel.instrument(), seconds));
            Optional<LevelCrossing> step = step(atUs, truth.orElseThrow().at(atUs) == above);
            if (step.isPresent()) {
                parts.addAll(CrossingTimes.levelDoubt(
                        level,
                        channel.instrument(),
                        signal.dimension(),
                        step.get().slope()));
                parts.addAll(CrossingTimes.timeDoubt(channel.instrument(), step.get()));
                return parts;
            }
            parts.add(Timing.looked(channel));
            slope(channel, atUs).ifPresent(line -> {
                parts.addAll(CrossingTimes.levelDoubt(level, channel.instrument(), signal.dimension(), line.slope()));
                double scatter = Math.max(Channels.sampleNoise(channel.instrument()), line.residual());
                double averaged = Math.min(line.samples(), Math.max(1, (double) WIDTH_US / channel.everyUs()));
                parts.add(Component.of(
                        "noise/" + channel.instrument().point() + "/" + Words.span(region),
                        -1 / line.slope(),
                        Input.stated(scatter / Math.sqrt(averaged), signal.dimension())));
            });
            return parts;
        }

        /** The line through the narrowest stretch over which it can be told from noise; else through the widest. */
        private static Optional<StraightLine> slope(Sampled channel, long aboutUs) {
            double noise = Channels.sampleNoise(channel.instrument());
            Optional<StraightLine> widest = Optional.empty();
            for (long half = WIDTH_US; half <= HALF_WIDTH_MAX_US; half *= 2) {
                Window stretch = new Window(aboutUs - half, aboutUs + half);
                Optional<StraightLine> line =
                        StraightLine.of(channel.trace(), stretch, aboutUs).filter(fit -> fit.slope() != 0);
                if (line.filter(fit ->
                                Math.abs(fit.slope()) * stretch.seconds() >= CLEAR * Math.max(noise, fit.residual()))
                        .isPresent()) {
                    return line;
                }
                widest = line.isPresent() ? line : widest;
            }
            return widest;
        }
    }

    /** A wire on or off. */
    record WireAt(Signal.Wire wire, boolean on, Recording recording) implements Watched {
        @Override
        public void advance() {
            // Its edges stand in the recording.
        }

        private Optional<Edges> edges() {
            return recording.switched(wire).map(Switched::edges);
        }

        @Override
        public long knownUntilUs() {
            return edges().isPresent() ? recording.untilUs() : Long.MIN_VALUE;
        }

        @Override
        public boolean at(long timeUs) {
            return edges().isPresent() && edges().get().at(timeUs) == on;
        }

        @Override
        public long nextChangeUs(long afterUs) {
            return Watched.nextChangeUs(edges(), afterUs);
        }

        @Override
        public List<Component> doubts(long atUs, double seconds) {
            return nextChangeUs(atUs - 1) != atUs
                    ? List.of()
                    : recording
                            .switched(wire)
                            .map(Switched::instrument)
                            .map(i -> Stream.concat(Timing.instant(i, 1).stream(), Stream.of(Timing.clock(i, seconds)))
                                    .toList())
                            .orElse(List.of());
        }
    }

    /** All parts at once, or at least one of them. */
    record Together(boolean all, List<Watched> parts) implements Watched {
        @Override
        public void advance() {
            parts.forEach(Watched::advance);
        }

        @Override
        public long knownUntilUs() {
            return parts.stream().mapToLong(Watched::knownUntilUs).min().orElse(Long.MAX_VALUE);
        }

        @Override
        public boolean at(long timeUs) {
            return all
                    ? parts.stream().allMatch(part -> part.at(timeUs))
                    : parts.stream().anyMatch(part -> part.at(timeUs));
        }

        @Override
        public long nextChangeUs(long afterUs) {
            return parts.stream()
                    .mapToLong(part -> part.nextChangeUs(afterUs))
                    .min()
                    .orElse(Long.MAX_VALUE);
        }

        @Override
        public List<Component> doubts(long atUs, double seconds) {
            return parts.stream()
                    .map(part -> part.doubts(atUs, seconds))
                    .filter(doubts -> !doubts.isEmpty())
                    .findFirst()
                    .orElse(List.of());
        }
    }

    private static long nextChangeUs(Optional<Edges> edges, long afterUs) {
        if (edges.isEmpty()) {
            return Long.MAX_VALUE;
        }
        int next = edges.get().firstAfter(afterUs);
        return next < edges.get().size() ? edges.get().timeUs(next) : Long.MAX_VALUE;
    }
}
