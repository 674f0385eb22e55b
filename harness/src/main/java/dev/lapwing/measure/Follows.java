package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.signal.AboveLine;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Polyline;
import dev.lapwing.signal.Spans;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * Least distance of a signal, as a moving mean, from the curves that it stays between. Stamps that are wrong move the
 * signal along the curve, so what they leave open is the steepness of the curve where it is nearest.
 */
final class Follows {
    private final Sight sight;

    Follows(Sight sight) {
        this.sight = sight;
    }

    /**
     * Where a signal came nearest to one of the curves.
     *
     * @param above    how far it lies above the curve, as its channel has it
     * @param extremes of that, in {@code window}
     * @param window   where it was looked at
     */
    private record Nearest(Polyline line, boolean lower, Sampled above, Extremes extremes, Window window) {
        /** Inside counting above 0. */
        double distance() {
            return lower ? extremes.least() : -extremes.greatest();
        }

        double value() {
            return lower ? extremes.least() : extremes.greatest();
        }

        long atUs() {
            return lower ? extremes.leastUs() : extremes.greatestUs();
        }
    }

    Measurement follows(Check.Follows check) {
        Window planned = window(check);
        String quantity = "least distance of " + check.signal().spoken() + " from the curve "
                + check.limit().figure();
        Optional<Sampled> sampled = sight.recording().sampled(check.signal());
        Window looked = sight.watched(planned);
        Optional<Nearest> nearest = sampled.flatMap(s -> nearest(check, s, looked));
        if (nearest.isEmpty()) {
            return sight.doubt(check.signal(), planned)
                    .orElseGet(() -> new Doubt(
                            "there are no samples of " + check.signal().spoken() + " where the curve holds",
                            "run it again"))
                    .of(quantity, planned);
        }
        Nearest found = nearest.get();
        Estimate estimate = estimate(check.signal(), found);
        boolean outside = estimate.value() < -estimate.expanded();
        Optional<Doubt> doubt = outside
                ? Doubt.transducer(check.signal(), sampled.get(), Stays.about(found.atUs()), sight.words())
                : sight.cutShort(planned.toUs())
                        .or(() -> sight.doubt(check.signal(), planned))
                        .or(() -> cutOff(check, sampled.get(), looked));
        Mark mark = new Mark(
                check.signal().key(),
                found.atUs(),
                found.value() + found.line.at((found.atUs() - sight.originUs()) * 1e-6),
                "nearest to the " + (found.lower ? "lower" : "upper") + " curve");
        return doubt.<Measurement>map(d -> d.of(quantity, planned))
                .orElseGet(() -> new Measured(estimate, quantity, List.of(mark), looked));
    }

    /** Whether it stood at an end of its range where a curve on that side holds, and may have been past it. */
    private Optional<Doubt> cutOff(Check.Follows check, Sampled sampled, Window looked) {
        boolean above = check.upper()
                .filter(line -> atEnds(check, line, looked, Unseen::above))
                .isPresent();
        boolean below = check.lower()
                .filter(line -> atEnds(check, line, looked, Unseen::below))
                .isPresent();
        return above || below
                ? Optional.of(Doubt.atEnd(check.signal(), above ? sampled.greatest() : sampled.least(), sight.words()))
                : Optional.empty();
    }

    private boolean atEnds(
            Check.Follows check, Polyline line, Window looked, Function<Unseen, Map<Signal, Spans>> side) {
        return holds(line, looked)
                .flatMap(window -> Unseen.atEnds(check.signal(), window, sight.recording()))
                .map(side)
                .filter(ends -> !ends.isEmpty())
                .isPresent();
    }

    private Window window(Check.Follows check) {
        double from = Double.POSITIVE_INFINITY;
        for (Polyline line : lines(check)) {
            from = Math.min(from, line.from());
        }
        return sight.between(from, check.watchSeconds().orElseThrow());
    }

    private static List<Polyline> lines(Check.Follows check) {
        List<Polyline> lines = new ArrayList<>();
        check.lower().ifPresent(lines::add);
        check.upper().ifPresent(lines::add);
        return lines;
    }

    private Optional<Nearest> nearest(Check.Follows check, Sampled sampled, Window looked) {
        return Stream.concat(
                        check.lower().flatMap(line -> nearest(line, true, sampled, looked)).stream(),
                        check.upper().flatMap(line -> nearest(line, false, sampled, looked)).stream())
                .min(Comparator.comparingDouble(Nearest::distance));
    }

    private Optional<Nearest> nearest(Polyline line, boolean lower, Sampled sampled, Window looked) {
        Sampled above = new Sampled(
                new AboveLine(sampled.trace(), line, sight.originUs()),
                sampled.instrument(),
                sampled.least(),
                sampled.greatest(),
                sampled.everyUs());
        // A mean stands for its middle, and the first and the last one for the ends of the curve.
        return holds(line, looked)
                .map(holds -> new Window(holds.fromUs() - Watched.WIDTH_US / 2, holds.toUs() + Watched.WIDTH_US / 2))
                .flatMap(window -> Extremes.of(above.trace(), window, Watched.WIDTH_US)
                        .map(extremes -> new Nearest(line, lower, above, extremes, window)));
    }

    /** Where a curve holds, of what was looked at. */
    private Optional<Window> holds(Polyline line, Window looked) {
        long fromUs = Math.max(looked.fromUs(), sight.after(line.from()));
        long toUs = Math.min(looked.toUs(), sight.after(line.to()));
        return toUs < fromUs ? Optional.empty() : Optional.of(new Window(fromUs, toUs));
    }

    private Estimate estimate(Signal signal, Nearest nearest) {
        Instrument instrument = nearest.above.instrument();
        double seconds = (nearest.atUs() - sight.originUs()) * 1e-6;
        Estimate above = Stays.extreme(
                nearest.above,
                signal.dimension(),
                nearest.extremes,
                nearest.value(),
                nearest.window,
                nearest.line.at(seconds));
        double slope = nearest.line.slope(seconds);
        Estimate timed = above.with(Timing.stimulus(sight.stimulusBoundUs(), slope))
                .with(Timing.clock(instrument, seconds).times(slope));
        for (Component part : Timing.instant(instrument, -slope)) {
            timed = timed.with(part);
        }
        return nearest.lower ? timed : timed.times(-1, signal.dimension());
    }
}
