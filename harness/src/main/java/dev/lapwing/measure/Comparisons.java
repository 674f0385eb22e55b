package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What one expectation measured against what another did; what both owe to one source adds or cancels as in truth. */
final class Comparisons {
    /** What is divided by must be so many standard uncertainties from 0, or the ratio is not linear in it. */
    private static final double CLEAR_OF_NOTHING = 5;

    private final Sight sight;

    Comparisons(Sight sight) {
        this.sight = sight;
    }

    Measurement comparison(Check.Comparison check) {
        Window window = new Window(sight.originUs(), sight.originUs());
        String quantity =
                "'" + check.expectation() + "' " + (check.over() ? "over" : "minus") + " '" + check.with() + "'";
        Map<String, Remembered> remembered = sight.remembered();
        for (String id : List.of(check.expectation(), check.with())) {
            if (!remembered.containsKey(Remembered.ofExpectation(id))) {
                return new Doubt("'" + id + "' measured nothing to compare", "see why it did not").of(quantity, window);
            }
        }
        Remembered one = remembered.get(Remembered.ofExpectation(check.expectation()));
        Remembered other = remembered.get(Remembered.ofExpectation(check.with()));
        List<Mark> marks = new ArrayList<>(one.marks());
        marks.addAll(other.marks());
        if (!check.over()) {
            return new Measured(one.level().minus(other.level()), quantity, marks, window);
        }
        if (Math.abs(other.level().value()) < CLEAR_OF_NOTHING * other.level().standardUncertainty()
                || other.level().value() == 0) {
            return new Doubt("'" + check.with() + "' is too near to 0 to be divided by", "compare by a difference")
                    .of(quantity, window);
        }
        return new Measured(ratio(one.level(), other.level()), quantity, marks, window);
    }

    private static Estimate ratio(Estimate one, Estimate other) {
        double a = one.value();
        double b = other.value();
        return one.times(1 / b, Dimension.RATIO)
                .combine(1, 1, other.times(-a / (b * b), Dimension.RATIO))
                .plus(a / b);
    }
}
