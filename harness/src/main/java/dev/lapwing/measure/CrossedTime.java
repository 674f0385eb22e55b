package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.MovedLevel;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Propagation;
import java.util.List;
import java.util.Optional;

/**
 * Makes measurements of times told by crossings: by linear propagation where that holds, else by Monte Carlo. Where so
 * many draws never come to the level that the interval has no end, there is no time to claim: only, where even the
 * least time is beyond the limit, that it took at least that.
 *
 * @param name     of the expectation; makes the seed
 * @param limit    that the time is held against
 * @param quantity in words
 * @param signal   that crosses
 * @param sampled  its channel
 * @param window   the stretch that was looked at
 */
record CrossedTime(String name, Limit limit, String quantity, Signal signal, Sampled sampled, Window window) {

    Measurement of(Crossed time, List<Mark> marks) {
        if (time.straight()) {
            return new Measured(time.linear(), quantity, marks, window);
        }
        Crossed.Drawn drawn = time.drawn(name);
        if (drawn.propagation().bounded()) {
            return new Measured(drawn.estimate(), quantity, marks, window);
        }
        return least(drawn.propagation())
                .<Measurement>map(least ->
                        new Measured(least, "least " + quantity + ", if it came to that at all,", marks, window))
                .orElseGet(() -> unsure(time, drawn.propagation()).of(quantity, window));
    }

    /** The least that it took, if that alone decides. */
    private Optional<Estimate> least(Propagation drawn) {
        double lower = drawn.lower();
        boolean late = Double.isFinite(lower)
                && limit.dimension() == Dimension.TIME
                && limit.upper().isPresent()
                && lower - drawn.tolerance() > limit.upper().getAsDouble();
        return late
                ? Optional.of(new Estimate(
                        lower,
                        Dimension.TIME,
                        List.of(new Component("propagation/" + drawn.seed(), drawn.tolerance() / 2))))
                : Optional.empty();
    }

    private Doubt unsure(Crossed time, Propagation drawn) {
        if (drawn.already() > drawn.never()) {
            return new Doubt(
                    signal.spoken() + " started so near the level that with a probability of "
                            + DecisionRule.percent(drawn.already()) + " it was past it already",
                    "let it start further from the level, or use a better transducer");
        }
        return new Doubt(
                signal.spoken() + " went beyond the level by so little that with a probability of "
                        + DecisionRule.percent(drawn.never()) + " it did not reach it, or at no time that can be told",
                time.parts().stream().map(Crossed.Part::moved).anyMatch(this::clipped)
                        ? "use a transducer whose range goes further"
                        : "choose a level on a steeper part of the curve, or use a better transducer");
    }

    /** It came to the end of the transducer's range, beyond which nothing shows. */
    private boolean clipped(MovedLevel moved) {
        double near =
                sampled.instrument().resolution() / 2 + sampled.instrument().noise();
        return Extremes.of(sampled.trace(), moved.window(), Watched.WIDTH_US)
                .filter(seen -> moved.rising()
                        ? seen.greatest() >= sampled.greatest() - near
                        : seen.least() <= sampled.least() + near)
                .isPresent();
    }
}
