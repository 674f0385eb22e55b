package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Check.Plateau;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.signal.Traces;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Proportion;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.EnumSource.Mode;

/**
 * Whether the furthest of several differences, which is the luckiest where they are alike, is stated with an
 * uncertainty that holds the truth. Source: closed form; of a staircase of even steps that is climbed and descended
 * without a difference every term is 0 but for the least step, which is the step, and with one place that is off by d
 * it is d.
 */
class StaircaseLuckReferenceTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final int RUNS = 400;
    private static final int PLACES = 8;
    private static final double NOISE = 0.02 * PSI;

    @ParameterizedTest
    @EnumSource(value = StaircaseTerm.class, mode = Mode.EXCLUDE, names = "SMALLEST_GRADUATION")
    void theFurthestOfManyThatAreAlikeHoldsTheTruth(StaircaseTerm term) {
        SplittableRandom random = new SplittableRandom(3);
        double truth = term == StaircaseTerm.LEAST_STEP ? 5 * PSI : 0;
        int held = 0;
        for (int run = 0; run < RUNS; run++) {
            held += term(term, 0, random).covers(truth) ? 1 : 0;
        }
        assertThat(new Proportion(held, RUNS).upper(0.999)).as("%d held", held).isGreaterThan(0.9545);
    }

    /** One that is clearly the furthest was chosen by no luck, and is stated as it was. */
    @ParameterizedTest
    @EnumSource(
            value = StaircaseTerm.class,
            names = {"HYSTERESIS", "REPEATABILITY"})
    void oneThatIsClearlyTheFurthestIsNoWider(StaircaseTerm term) {
        Estimate told = term(term, 1, new SplittableRandom(4));
        assertThat(told.components()).noneMatch(part -> part.source().startsWith("selection/"));
        assertThat(Math.abs(told.value())).isBetween(0.9 * PSI, 1.1 * PSI);
    }

    /** @param off by how much one place is off on the way back, in psi */
    private static Estimate term(StaircaseTerm term, double off, SplittableRandom random) {
        Map<String, Remembered> levels = new HashMap<>();
        List<Plateau> there = way("there", 0, levels, random);
        List<Plateau> back = way("back", off, levels, random);
        List<Plateau> both = new ArrayList<>(there);
        if (term == StaircaseTerm.REPEATABILITY) {
            both.addAll(back);
        }
        Check check = new Check.Staircase(term, both, back, 0, Limits.psi(-2, 2));
        Measurement found = new Measuring(new HandMade(2, 1), new Words(PressureDisplay.PSI))
                .measure(check, new ExpectationWindow("x", 0, 0, 2_000_000, true), 0, levels);
        return ((Measured) found).estimate();
    }

    private static List<Plateau> way(String name, double off, Map<String, Remembered> into, SplittableRandom random) {
        List<Plateau> plateaus = new ArrayList<>();
        for (int i = 0; i < PLACES; i++) {
            String place = name + ", " + i;
            double level = (5 * i + (i == 3 ? off : 0)) * PSI + NOISE * Traces.normal(random);
            List<Component> parts =
                    List.of(new Component("calibration/P", 0.1 * PSI), new Component("noise/" + place, NOISE));
            into.put(place, new Remembered(new Estimate(level, Dimension.PRESSURE, parts), List.of()));
            plateaus.add(new Plateau(place, CYLINDER, 10 * i));
        }
        return plateaus;
    }
}
