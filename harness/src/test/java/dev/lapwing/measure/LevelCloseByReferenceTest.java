package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Traces;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Instrument;
import dev.lapwing.uncertainty.Proportion;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/**
 * Whether what is stated of durations, orders and entries holds the truth where a level was passed by little, or not
 * quite, and where noise carries a slow signal over its level again and again.
 *
 * <p>Source: closed form. A parabola b·t² whose foot lies h beyond a level is beyond it for 2·√(h/b), from √(h/b)
 * before its foot on; slopes of r to either side of a foot h beyond for 2·h/r. How far the foot lies beyond is spread
 * evenly from 5 standard uncertainties short of the level to 8 beyond, since an interval claims to hold the truth
 * whatever it is; what a transducer has wrong is drawn anew for each.
 */
class LevelCloseByReferenceTest {
    private static final int RUNS = 160;
    private static final double STATED = 0.9545;
    private static final double SURE = 0.999;
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final Signal.Wire HOLDING = new Signal.Wire("holding");
    private static final PlannedCondition BELOW = new PlannedCondition.Below(CYLINDER, 50 * PSI);
    private static final Check LASTS = new Check.Duration(BELOW, 8.5, Limits.between(Dimension.TIME, 0, 8));
    private static final Check COMES_BEFORE = new Check.ComesBefore(
            BELOW, new PlannedCondition.WireIs(HOLDING, true), 8.5, Limits.between(Dimension.TIME, -8, 8));
    private static final Check RECOVERS =
            new Check.Recovery(CYLINDER, "before", PSI, 8, Limits.atMost(Dimension.TIME, 8));

    /** True for as long as the stage is later than it was by less than it lasts; counted up to 2 s to either side. */
    private static final Check COMES_TRUE = new Check.Temporal(
            new PlannedCondition.Eventually(0, 6, BELOW),
            false,
            OptionalDouble.empty(),
            2,
            Limits.atLeast(Dimension.TIME, 0));

    /** A transducer: standard uncertainty of its calibration and noise of one sample, in psi. */
    private record Transducer(double calibration, double noise) {
        /** Of a mean over 20 samples. */
        double standard() {
            return Math.hypot(calibration, noise / Math.sqrt(20));
        }

        HandMade run(DoubleUnaryOperator psi, SplittableRandom random) {
            double wrong = calibration * Traces.normal(random);
            Trace trace = Traces.noisy(10_000, 1000, t -> PSI * (psi.applyAsDouble(t) + wrong), noise * PSI, random);
            Instrument channel =
                    new Instrument("BC1", calibration * PSI, 0, 0.0025 * PSI, noise * PSI, 20, true, "bench", 20e-6);
            return new HandMade(10, 1)
                    .channel(CYLINDER, trace, channel, -10 * PSI, 150 * PSI)
                    .wire("holding", 5);
        }
    }

    private static final List<Transducer> TRANSDUCERS =
            List.of(new Transducer(0.1, 0.05), new Transducer(0.3, 0.01), new Transducer(0.03, 0.1));

    /** How often the truth was held, of what was measured. */
    private static final class Tally {
        private int held;
        private int measured;

        /** @param truth empty where there is none, and what is measured all the same is wrong */
        void add(Measurement found, OptionalDouble truth, String which) {
            if (found instanceof Measured one) {
                measured++;
                held += truth.isPresent() && one.estimate().covers(truth.getAsDouble()) ? 1 : 0;
            } else {
                assertThat(found instanceof NeverHappened && truth.isPresent())
                        .as("%s: said never to have happened, which it did", which)
                        .isFalse();
            }
        }

        void asStated(String which, int least) {
            assertThat(measured).as(which).isGreaterThan(least);
            assertThat(new Proportion(held, measured).upper(SURE))
                    .as("%s: %d of %d hold the truth", which, held, measured)
                    .isGreaterThan(STATED);
        }
    }

    @Test
    void aDipThatJustPassesTheLevelLastsAndComesAsStated() {
        for (Transducer transducer : TRANSDUCERS) {
            for (double bend : new double[] {0.5, 20}) {
                Tally lasts = new Tally();
                Tally order = new Tally();
                SplittableRandom random = new SplittableRandom(7);
                for (int i = 0; i < RUNS; i++) {
                    double beyond = transducer.standard() * (-5 + 13.0 * i / RUNS);
                    HandMade run = transducer.run(t -> Math.min(60, 50 - beyond + bend * (t - 5) * (t - 5)), random);
                    OptionalDouble half =
                            beyond > 0 ? OptionalDouble.of(Math.sqrt(beyond / bend)) : OptionalDouble.empty();
                    String which = transducer + ", bend " + bend + ", beyond by " + beyond;
                    lasts.add(measure(run, LASTS), times(2, half), which);
                    order.add(measure(run, COMES_BEFORE), half, which);
                }
                lasts.asStated("duration, " + transducer + ", bend " + bend, RUNS / 5);
                order.asStated("order, " + transducer + ", bend " + bend, RUNS / 5);
            }
        }
    }

    /** A first dip just passes the level; a second one surely does, for 0.3 s: the margin where the first is none. */
    @Test
    void theMarginInTimeOfADipThatJustPassesTheLevelIsAsStated() {
        for (Transducer transducer : TRANSDUCERS) {
            Tally margins = new Tally();
            SplittableRandom random = new SplittableRandom(13);
            double bend = 2;
            for (int i = 0; i < RUNS; i++) {
                double beyond = transducer.standard() * (-5 + 13.0 * i / RUNS);
                HandMade run = transducer.run(
                        t -> Math.min(
                                Math.min(60, 50 - beyond + bend * (t - 3) * (t - 3)),
                                47 + 3 / (0.15 * 0.15) * (t - 6) * (t - 6)),
                        random);
                double truth = Math.max(0.3, Math.min(2, 2 * Math.sqrt(Math.max(0, beyond) / bend)));
                margins.add(measure(run, COMES_TRUE), OptionalDouble.of(truth), transducer + ", beyond by " + beyond);
            }
            margins.asStated("margin in time, " + transducer, RUNS - 1);
        }
    }

    @Test
    void noiseOnASlowSlopeNeitherSplitsAStageNorBringsAnEventEarlier() {
        for (Transducer transducer : TRANSDUCERS) {
            Tally lasts = new Tally();
            Tally order = new Tally();
            SplittableRandom random = new SplittableRandom(9);
            for (int i = 0; i < RUNS; i++) {
                double beyond = 1.5 + 0.5 * random.nextDouble();
                HandMade run = transducer.run(t -> 50 - beyond + Math.abs(t - 5), random);
                String which = transducer + ", beyond by " + beyond;
                lasts.add(measure(run, LASTS), OptionalDouble.of(2 * beyond), which);
                order.add(measure(run, COMES_BEFORE), OptionalDouble.of(beyond), which);
            }
            lasts.asStated("duration, " + transducer, RUNS - 1);
            order.asStated("order, " + transducer, RUNS - 1);
        }
    }

    /** Back within 1 psi of 20 psi after 1.8 s, and for good once a swing 1 psi below it is over. */
    @Test
    void aSwingThatJustLeavesABandIsEnteredAsStated() {
        for (Transducer transducer : TRANSDUCERS) {
            Tally entries = new Tally();
            SplittableRandom random = new SplittableRandom(11);
            double bend = 5;
            for (int i = 0; i < RUNS; i++) {
                double inside = transducer.standard() * (-6 + 12.0 * i / RUNS);
                HandMade run = transducer.run(
                        t -> t < 1.5
                                ? 20
                                : t < 2
                                        ? 15
                                        : t < 3
                                                ? 15 + 5 * (t - 2)
                                                : Math.min(20, 19 + inside + bend * (t - 6) * (t - 6)),
                        random);
                double truth = inside >= 0 ? 1.8 : 5 + Math.sqrt(-inside / bend);
                entries.add(measure(run, RECOVERS), OptionalDouble.of(truth), transducer + ", inside by " + inside);
            }
            entries.asStated("entry, " + transducer, RUNS - 1);
        }
    }

    private static OptionalDouble times(double factor, OptionalDouble of) {
        return of.isPresent() ? OptionalDouble.of(factor * of.getAsDouble()) : of;
    }

    private static Measurement measure(HandMade run, Check check) {
        ExpectationWindow seen = new ExpectationWindow("x", 1_000_000, 1_000_000, 9_900_000, true);
        Estimate level = new Estimate(20 * PSI, Dimension.PRESSURE, List.of());
        return new Measuring(run, new Words(PressureDisplay.PSI))
                .measure(check, seen, 0, Map.of("before", new Remembered(level, List.of())));
    }
}
