package dev.lapwing.measure;

import dev.lapwing.plan.Check;
import dev.lapwing.signal.StateLevels;
import dev.lapwing.signal.StraightLine;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The states between which a response goes: given, means before and after, or the modes of the histogram.
 *
 * @param first state that it goes from
 * @param last  state that it goes to
 */
record States(Estimate first, Estimate last) {
    /** A state that moves on by more than this share of the change while it is averaged is none. Common practice. */
    private static final double DRIFT_GREATEST = 0.05;

    /** States, or why they cannot be told. */
    record Told(Optional<States> states, Optional<Doubt> doubt) {
        static Told not(String reason, String mend) {
            return new Told(Optional.empty(), Optional.of(new Doubt(reason, mend)));
        }
    }

    double change() {
        return last.value() - first.value();
    }

    static Told of(Check.Response check, Sight sight, Sampled sampled) {
        Window before = before(check, sight);
        Window after = sight.between(check.settled(), check.settled() + check.over());
        return check.states().histogram()
                ? histogram(check, sampled, new Window(before.fromUs(), after.toUs()), before)
                : means(check, sight, sampled, before, after);
    }

    static Window before(Check.Response check, Sight sight) {
        long fromUs = sight.after(-check.states().before());
        return new Window(fromUs, Math.max(fromUs, sight.originUs() - 1 - sight.stimulusBoundUs()));
    }

    private static Told means(Check.Response check, Sight sight, Sampled sampled, Window before, Window after) {
        Estimate first = state(check.states().first(), check, sampled, before);
        Estimate last = state(check.states().last(), check, sampled, after);
        double change = Math.abs(last.value() - first.value());
        if (check.states().last().isEmpty()) {
            Optional<StraightLine> line = StraightLine.of(sampled.trace(), after, after.fromUs());
            double drift =
                    line.map(fit -> Math.abs(fit.slope()) * after.seconds()).orElse(0.0);
            double chance = line.map(fit -> 4 * fit.slopeStandard() * fit.inflation() * after.seconds())
                    .orElse(0.0);
            if (drift > DRIFT_GREATEST * change && drift > chance) {
                return Told.not(
                        check.signal().spoken() + " had not settled: it moved on by "
                                + sight.words().value(drift, check.signal().dimension()) + " while its last state was"
                                + " averaged",
                        "take a later 'after'");
            }
        }
        return new Told(Optional.of(new States(first, last)), Optional.empty());
    }

    private static Estimate state(OptionalDouble given, Check.Response check, Sampled sampled, Window window) {
        return given.isPresent()
                ? new Estimate(given.getAsDouble(), check.signal().dimension(), List.of())
                : Levels.level(sampled, check.signal().dimension(), window);
    }

    private static Told histogram(Check.Response check, Sampled sampled, Window whole, Window before) {
        Optional<StateLevels> levels = StateLevels.of(sampled.trace(), whole);
        if (levels.isEmpty()) {
            return Told.not(
                    check.signal().spoken() + " has but one value, which makes no two states",
                    "see whether its transducer is alive");
        }
        Estimate low = state(levels.get().low(), "low", check, sampled, whole);
        Estimate high = state(levels.get().high(), "high", check, sampled, whole);
        double start = Levels.level(sampled, check.signal().dimension(), before).value();
        boolean rises = Math.abs(start - low.value()) < Math.abs(start - high.value());
        return new Told(Optional.of(rises ? new States(low, high) : new States(high, low)), Optional.empty());
    }

    private static Estimate state(
            StateLevels.State state, String name, Check.Response check, Sampled sampled, Window whole) {
        double seen = state.deviation() / Math.sqrt(Math.max(1, state.samples()));
        double claimed = sampled.instrument().noise() / Math.sqrt(Math.max(1, state.samples()));
        Input scatter = seen > claimed
                ? Input.observed(seen, check.signal().dimension(), Math.max(1, state.samples() - 1))
                : Input.stated(claimed, check.signal().dimension());
        return Levels.reading(state.level(), sampled.instrument(), scatter, Words.span(whole) + " " + name);
    }
}
