package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.Robustness;
import dev.lapwing.signal.Switching;
import dev.lapwing.signal.Window;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;

/**
 * Tells, while a run is on, when nothing that may still come can change what an expectation measures, so that the run
 * can go on. It uses the evaluators that {@link Measuring} uses afterwards.
 */
public final class CheckWatch {
    /** So long after the last moment of interest reports are waited for, in µs, before going on without them. */
    private static final long GRACE_US = 2_000_000;

    private final PlannedExpectation expectation;
    private final long originUs;
    private final long originBoundUs;
    private final Recording recording;
    private final BooleanSupplier found;
    private boolean decided;

    private CheckWatch(PlannedExpectation expectation, long originUs, long originBoundUs, Recording recording) {
        this.expectation = expectation;
        this.originUs = originUs;
        this.originBoundUs = originBoundUs;
        this.recording = recording;
        this.found = early(expectation.check());
    }

    /**
     * @param originUs  bench time that the expectation's times count from, in µs
     * @param originBoundUs bound of the error of that instant, in µs
     * @param recording what is being recorded; grows
     */
    public static CheckWatch of(
            PlannedExpectation expectation, long originUs, long originBoundUs, Recording recording) {
        return new CheckWatch(expectation, originUs, originBoundUs, recording);
    }

    public PlannedExpectation expectation() {
        return expectation;
    }

    /** Bench time that the expectation's times count from, in µs. */
    public long originUs() {
        return originUs;
    }

    /**
     * True once nothing later can change the measured quantity; stays true. Never for an expectation that lasts as long
     * as the steps around it.
     *
     * @param nowUs bench time now, in µs
     */
    public boolean decided(long nowUs) {
        decided = decided || found.getAsBoolean() || over(nowUs);
        return decided;
    }

    private boolean over(long nowUs) {
        OptionalDouble seconds = expectation.check().watchSeconds();
        if (seconds.isEmpty()) {
            return false;
        }
        long endUs = originUs + Math.round(seconds.getAsDouble() * 1e6);
        if (nowUs >= endUs + GRACE_US) {
            return true;
        }
        boolean waitsOnly = !(expectation.check() instanceof Check.Crossing);
        return waitsOnly && expectation.check().signals().stream().allMatch(signal -> knownUntilUs(signal) >= endUs);
    }

    /** Bench time up to which the signal has been reported. */
    private long knownUntilUs(Signal signal) {
        if (signal.digital()) {
            return recording.untilUs() == Long.MIN_VALUE ? Long.MIN_VALUE : recording.untilUs() - Timing.BOUNCE_US;
        }
        return recording
                .sampled(signal)
                .map(Sampled::trace)
                .filter(trace -> trace.size() > 0)
                .map(trace -> trace.timeUs(trace.size() - 1) - 2 * Watched.WIDTH_US)
                .orElse(Long.MIN_VALUE);
    }

    private BooleanSupplier early(Check check) {
        Optional<Window> window = check.watchSeconds().isPresent()
                ? Optional.of(new Window(
                        originUs, originUs + Math.round(check.watchSeconds().getAsDouble() * 1e6)))
                : Optional.empty();
        if (check instanceof Check.Crossing crossing) {
            return crosses(crossing, window.orElseThrow());
        }
        if (check instanceof Check.WireSwitches wire) {
            return () -> switches(wire, window.orElseThrow());
        }
        if (check instanceof Check.Temporal temporal && !temporal.inTime() && window.isPresent()) {
            return margin(temporal, window.get());
        }
        if (check instanceof Check.ComesBefore order) {
            // Until both have surely come: whether they only nearly did is then seen.
            List<Stages> both = Stream.of(order.first(), order.then())
                    .map(event -> Stages.of(event, originUs - 1, recording, Ease.SURELY))
                    .toList();
            return () -> {
                both.forEach(Stages::advance);
                return both.stream().allMatch(event -> event.began().isPresent());
            };
        }
        if (check instanceof Check.Duration stage) {
            // Until it has surely come and gone: whether it only nearly did is then seen.
            List<Stages> eased = Stream.of(Ease.NONE, Ease.PERHAPS, Ease.SURELY)
                    .map(ease -> Stages.of(stage.condition(), originUs - 1, recording, ease))
                    .toList();
            return () -> {
                eased.forEach(Stages::advance);
                return eased.stream()
                        .allMatch(stages -> stages.first(window.orElseThrow()).isPresent());
            };
        }
        return () -> false;
    }

    private BooleanSupplier margin(Check.Temporal check, Window window) {
        Atoms apart = Atoms.of(check.condition());
        Atoms atoms = check.lasting() ? apart.throughout(Atoms.us(check.over().orElse(0))) : apart;
        Robustness robustness = new Robustness(atoms.formula());
        Readings readings = new Readings(atoms, recording, Unseen.NOTHING, Side.AS_BEFORE, window.fromUs());
        return () -> {
            while (!robustness.known() && readings.advance(window.toUs(), false)) {
                robustness.sample(readings.timeUs(), readings.values());
            }
            return robustness.known();
        };
    }

    /** What was reached is watched until it is past all that the level may be off, or its time is over. */
    private BooleanSupplier crosses(Check.Crossing crossing, Window window) {
        Optional<Sampled> sampled = recording.sampled(crossing.signal());
        if (sampled.isEmpty()) {
            return () -> false;
        }
        double past = Crossed.REACH * CrossingTimes.doubt(sampled.get().instrument(), crossing.signal());
        CrossingSearch level = Channels.search(sampled.get(), crossing, 0, window);
        CrossingSearch beyond = Channels.search(sampled.get(), crossing, crossing.rising() ? past : -past, window);
        return () -> level.advance(Long.MAX_VALUE, false).over()
                && (level.found().isEmpty()
                        || beyond.advance(Long.MAX_VALUE, false).over());
    }

    private boolean switches(Check.WireSwitches check, Window window) {
        return recording
                .switched(check.wire())
                .filter(wire -> Switching.first(
                                wire.edges(),
                                check.on(),
                                WireTimes.search(window, originBoundUs, wire),
                                Timing.BOUNCE_US,
                                recording.untilUs())
                        .isPresent())
                .isPresent();
    }
}
