package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.signal.MovingMean;
import dev.lapwing.signal.Polyline;
import dev.lapwing.signal.Spans;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * Least distance of a signal, as a moving mean, from the curves that it stays between. Stamps that are wrong move the
 * signal along the curve, so what they leave open is the steepness of the curve where it is nearest.
 */
final class Follows {
    private final Sight sight;

    Follows(Sight sight) {
        this.sight = sight;
    }

    /** The distance from a curve at an instant, inside counting above 0. */
    private record Nearest(double distance, long atUs, double level, boolean lower, double slope) {}

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
        Estimate estimate = estimate(check.signal(), sampled.get(), found, looked);
        boolean outside = found.distance < -estimate.expanded();
        Optional<Doubt> doubt = outside
                ? Doubt.transducer(check.signal(), sampled.get(), Stays.about(found.atUs), sight.words())
                : sight.cutShort(planned.toUs())
                        .or(() -> sight.doubt(check.signal(), planned))
                        .or(() -> cutOff(check, sampled.get(), looked));
        Mark mark = new Mark(
                check.signal().key(),
                found.atUs,
                found.level,
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
        long fromUs = Math.max(looked.fromUs(), sight.after(line.from()));
        long toUs = Math.max(fromUs, Math.min(looked.toUs(), sight.after(line.to())));
        return Unseen.atEnds(check.signal(), new Window(fromUs, toUs), sight.recording())
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
        MovingMean mean = new MovingMean(sampled.trace(), Watched.WIDTH_US, looked.fromUs() - Watched.WIDTH_US);
        Nearest least = null;
        while (mean.advance(looked.toUs() + Watched.WIDTH_US)) {
            double seconds = (mean.timeUs() - sight.originUs()) * 1e-6;
            for (Polyline line : looked.holds(mean.timeUs()) ? lines(check) : List.<Polyline>of()) {
                boolean lower = check.lower().filter(low -> low == line).isPresent();
                double distance = lower ? mean.value() - line.at(seconds) : line.at(seconds) - mean.value();
                if (line.covers(seconds) && (least == null || distance < least.distance)) {
                    least = new Nearest(distance, mean.timeUs(), mean.value(), lower, line.slope(seconds));
                }
            }
        }
        return Optional.ofNullable(least);
    }

    private Estimate estimate(Signal signal, Sampled sampled, Nearest nearest, Window looked) {
        Instrument instrument = sampled.instrument();
        double every = Math.max(1, sampled.everyUs());
        double scatter = Stays.scatter(
                instrument.noise(), Math.max(1, Watched.WIDTH_US / every), (looked.toUs() - looked.fromUs()) / every);
        int sense = nearest.lower ? 1 : -1;
        Input noise = Input.stated(scatter, signal.dimension());
        List<Component> parts = new ArrayList<>();
        Levels.reading(nearest.level, instrument, noise, Words.span(looked))
                .components()
                .forEach(c -> parts.add(c.times(sense)));
        parts.add(Timing.stimulus(sight.stimulusBoundUs(), sense * nearest.slope));
        parts.addAll(Timing.instant(instrument, -sense * nearest.slope));
        double seconds = (nearest.atUs - sight.originUs()) * 1e-6;
        parts.add(Timing.clock(instrument, seconds).times(sense * nearest.slope));
        return new Estimate(nearest.distance, signal.dimension(), parts);
    }
}
