package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static dev.lapwing.measure.Waveforms.BAND;
import static dev.lapwing.measure.Waveforms.CYLINDER;
import static dev.lapwing.measure.Waveforms.SHARE;
import static dev.lapwing.measure.Waveforms.TIME;
import static dev.lapwing.measure.Waveforms.exact;
import static dev.lapwing.measure.Waveforms.fill;
import static dev.lapwing.measure.Waveforms.measure;
import static dev.lapwing.measure.Waveforms.noisy;
import static dev.lapwing.measure.Waveforms.term;
import static dev.lapwing.measure.Waveforms.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.measure.Measurement.NotMeasurable;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Check.Plateau;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Defined quantities of brakes on analytic courses against closed forms; nothing of the harness is used to get these.
 * Source of the definitions: IEEE Std 181-2011 (states; from memory; its other terms are in
 * {@link WaveformReferenceTest}), EN 14531-1:2015 clause 4 (equivalent response time te = ta + tab/2; from memory), 49
 * CFR 229.140(d) (alerter cycle; from memory). Values by algebra. The stimulus is at 1 s.
 */
class QuantitiesReferenceTest {
    /**
     * Source: EN 14531-1:2015 clause 4, te = ta + tab/2 (from memory), with ta to 10 % and tab from there to 95 %:
     * the mean of the two times. For build-up in a straight line from 1.0 s to 4.0 s: (1.3 + 3.85)/2 = 2.575 s.
     */
    @Test
    void theEquivalentResponseTimeIsThatOfItsDefinition() {
        Check check = term(ResponseTerm.EQUIVALENT_RESPONSE_TIME, 0, TIME);
        HandMade ramp = exact(t -> 50 * Math.max(0, Math.min(1, (t - 1) / 3)));
        assertThat(value(ramp, check).value()).isCloseTo(2.575, within(1e-6));
        double tau = 0.7;
        HandMade fill = exact(t -> 50 * fill(t - 0.4, tau));
        double due = 0.4 - tau * (StrictMath.log(0.9) + StrictMath.log(0.05)) / 2;
        assertThat(value(fill, check).value()).isCloseTo(due, within(1e-4));
    }

    /** Source: IEEE Std 181-2011, states by the modes of the histogram; of a square wave its two levels. */
    @Test
    void theStatesOfASquareWaveAreItsLevels() {
        Check.States histogram = new Check.States(OptionalDouble.empty(), OptionalDouble.empty(), true, 0.5);
        HandMade run = noisy(t -> t < 0 ? 12 : 47);
        for (ResponseTerm state : List.of(ResponseTerm.LOW_STATE, ResponseTerm.HIGH_STATE)) {
            Check check = new Check.Response(CYLINDER, state, 0, histogram, 5, 0.5, BAND);
            assertThat(value(run, check).value() / PSI)
                    .isCloseTo(state == ResponseTerm.LOW_STATE ? 12 : 47, within(0.02));
        }
    }

    /** A transducer that reads all too high by one and the same tells shares of a change at the same time. */
    @Test
    void whatATransducerReadsTooHighLeavesTimesToShares() {
        Check check = term(ResponseTerm.TIME_TO_SHARE, 0.5, TIME);
        Estimate time = value(noisy(t -> 50 * fill(t, 0.8)), check);
        assertThat(part(time, "calibration/P-brake-cylinder@1")).isCloseTo(0, within(1e-12));
        assertThat(time.value()).isCloseTo(0.8 * StrictMath.log(2), within(5e-3));
        assertThat(part(time, "stimulus stamp")).isNotZero();
        Estimate duration = value(noisy(t -> 50 * fill(t, 0.8)), term(ResponseTerm.TRANSITION_DURATION, 0, TIME));
        assertThat(part(duration, "stimulus stamp")).isCloseTo(0, within(1e-12));
    }

    @Test
    void whatDoesNotRespondFailsAndWhatHasNotSettledIsRefused() {
        Check check = term(ResponseTerm.OVERSHOOT, 0, SHARE);
        assertThat(measure(noisy(t -> 20), check, 12)).isInstanceOf(NeverHappened.class);
        refused(noisy(t -> 8 * Math.max(0, t)), check, "had not settled");
        refused(noisy(t -> t < 0 ? 20 : 20.6), check, "too little beside its noise");
    }

    /** Source: closed form; the knee of a fall that begins 0.2345 s after the stimulus. */
    @Test
    void aDumpBeginsAtItsKnee() {
        Check check = new Check.Onset(CYLINDER, false, 4, TIME);
        DoubleUnaryOperator dump = t -> 70 * StrictMath.exp(-Math.max(0, t - 0.2345) / 0.8);
        assertThat(value(exact(dump), check).value()).isCloseTo(0.2345, within(2e-3));
        Estimate time = value(noisy(dump), check);
        assertThat(time.value()).isCloseTo(0.2345, within(2.5 * time.standardUncertainty()));
        assertThat(time.standardUncertainty()).isLessThan(2e-3);
        refused(noisy(t -> 70 - 10 * (t + 1)), check, "moving already");
        assertThat(measure(noisy(t -> 70), check, 8)).isInstanceOf(NeverHappened.class);
    }

    /**
     * Source: algebra; an exponential fall that begins with the stimulus is steepest there, and its mean over a third
     * of the width is its value at the beginning of that times (τ/third)·(1 − e^(−third/τ)).
     */
    @Test
    void theGreatestRateOfAnExponentialFallIsThatOfItsBeginning() {
        double tau = 0.8;
        double w = 0.3;
        double third = w / 3;
        double decay = StrictMath.exp(-third / tau);
        double due = 70 * tau / third * (1 - decay) * (1 - decay * decay) / (2 * third);
        Check check = new Check.SteepestRate(CYLINDER, false, w, 4, Limits.atLeast(Dimension.PRESSURE_RATE, 10 * PSI));
        HandMade run = exact(t -> 70 * StrictMath.exp(-Math.max(0, t) / tau));
        assertThat(value(run, check).value() / PSI).isCloseTo(due, within(1e-3 * due));
        HandMade spiked = exact(t -> 70 * StrictMath.exp(-Math.max(0, t) / tau) - (Math.abs(t - 2) < 0.003 ? 30 : 0));
        assertThat(value(spiked, check).value() / PSI).isCloseTo(due, within(1e-3 * due));
    }

    /** Source: closed form; speed is distance by time, so that 1 % of the one is 1 % of the other. */
    @ParameterizedTest
    @ValueSource(doubles = {150, 280, 340})
    void aWaveOnAnExactLineHasItsSpeed(double speed) {
        int vehicles = 8;
        HandMade clean = new HandMade(8, 1);
        HandMade noisy = new HandMade(8, 5);
        for (int i = 0; i < vehicles; i++) {
            double at = 1.1 + 22 * i / speed;
            clean.pressure("brake-pipe@" + (i + 1), t -> 70 - 30 * Math.max(0, Math.min(2, t - at)), 0);
            noisy.pressure("brake-pipe@" + (i + 1), t -> 70 - 30 * Math.max(0, Math.min(2, t - at)));
        }
        List<Signal> signals = IntStream.rangeClosed(1, vehicles)
                .mapToObj(v -> Keys.signal("brake-pipe@" + v).orElseThrow())
                .toList();
        Check check = new Check.Travel(signals, false, 22, 0.22, 5, Limits.atLeast(Dimension.SPEED, 100));
        Estimate found = value(noisy, check);
        assertThat(found.value()).isCloseTo(speed, within(3 * found.standardUncertainty()));
        assertThat(part(found, "stimulus stamp")).isCloseTo(0, within(1e-9));
        assertThat(part(found, "spacing")).isCloseTo(0.01 / Math.sqrt(3) * found.value(), within(1e-9));
        assertThat(found.standardUncertainty()).isBetween(0.0003 * speed, 0.03 * speed);
    }

    /** Source: least squares on an exact line, and GUM H.3: times owe the stamp of the stimulus to no slope. */
    @Test
    void timesOnAnExactLineGiveItsSlope() {
        List<Estimate> times = IntStream.range(0, 5)
                .mapToObj(i -> new Estimate(
                        0.3 + 0.08 * i,
                        Dimension.TIME,
                        List.of(new Component("stimulus stamp", 0.01), new Component("noise/" + i, 0.002))))
                .toList();
        Estimate slowness = Onsets.slowness(times, 20);
        assertThat(slowness.value()).isCloseTo(0.004, within(1e-12));
        assertThat(part(slowness, "stimulus stamp")).isCloseTo(0, within(1e-15));
        // u(b) = u/√Σ(i − ī)², with Σ = 10 and 20 m between.
        assertThat(slowness.standardUncertainty()).isCloseTo(0.002 / Math.sqrt(10) / 20, within(1e-9));
    }

    /**
     * Source: 49 CFR 229.140(d) (from memory): above 20 mph a warning comes every 2400/v s, v in mph, within 10 s,
     * once in two thirds of a mile. Cycles at the formula pass, cycles off by more than that fail.
     */
    @ParameterizedTest
    @CsvSource({"20,120", "24,100", "25,96", "30,80", "40,60", "50,48", "60,40", "80,30", "100,24", "125,19.2"})
    void alerterCyclesAreHeldAgainstTheirFormula(double mph, double seconds) {
        assertThat(2400 / mph).isCloseTo(seconds, within(1e-9));
        Limit cycle = Limits.between(Dimension.TIME, seconds - 10, seconds + 10);
        for (double off : new double[] {-11, -9, 0, 9, 11}) {
            assertThat(keeps(seconds + off, cycle)).isEqualTo(Math.abs(off) < 10);
        }
    }

    /** Source: as above; below 20 mph the cycle takes 100 s to 120 s. */
    @ParameterizedTest
    @CsvSource({"99, false", "101, true", "119, true", "121, false"})
    void belowTwentyMilesAnHourTheCycleIsTwoMinutesAtMost(double seconds, boolean kept) {
        assertThat(keeps(seconds, Limits.between(Dimension.TIME, 100, 120))).isEqualTo(kept);
    }

    /** Whether a cycle that takes so long is measured as such and lies inside by more than its uncertainty. */
    private static boolean keeps(double due, Limit cycle) {
        // Acknowledged 1 s after each warning, which starts the cycle anew.
        HandMade run = new HandMade(2 * due + 60, 1).wire("warning-light", 2, 3, 3 + due, 4 + due);
        PlannedCondition dark = new PlannedCondition.WireIs(new Signal.Wire("warning-light"), false);
        Check check = new Check.Duration(dark, 2 * due + 50, cycle);
        Measured found = (Measured) measure(run, check, 2 * due + 55);
        assertThat(found.estimate().value()).isCloseTo(due, within(1e-6));
        return cycle.margin(found.estimate().value()) > found.estimate().expanded();
    }

    @Test
    void stagesAreTimedFromTheirBeginningToTheirEnd() {
        PlannedCondition light = new PlannedCondition.WireIs(new Signal.Wire("warning-light"), true);
        Check check = new Check.Duration(light, 6, TIME);
        HandMade run = new HandMade(8, 1).wire("warning-light", 2, 4.5);
        assertThat(value(run, check).value()).isCloseTo(2.5, within(1e-9));
        assertThat(measure(new HandMade(8, 1).wire("warning-light", 2), check, 8))
                .isInstanceOf(NeverHappened.class);
        refused(new HandMade(8, 1).wire("warning-light", 0.5), check, "already before");
    }

    /** Source: closed form; a dip of 5 V that decays with τ is back within 0.5 V after τ·ln 10. */
    @Test
    void aDipIsBackWhenItsClosedFormSays() {
        Map<String, Remembered> before = Map.of("full", level(50));
        HandMade run = exact(t -> 50 - (t < 0 ? 0 : 5 * StrictMath.exp(-t / 0.7)));
        Check back = new Check.Recovery(CYLINDER, "full", 0.5 * PSI, 6, TIME);
        assertThat(((Measured) measure(run, back, 8, before)).estimate().value())
                .isCloseTo(0.7 * StrictMath.log(10), within(3e-3));
        Check far = new Check.Departure(CYLINDER, "full", OptionalDouble.of(5), BAND);
        assertThat(((Measured) measure(run, far, 8, before)).estimate().value() / PSI)
                .isCloseTo(-5, within(0.1));
        assertThat(((Measured) measure(exact(t -> 50), back, 8, before))
                        .estimate()
                        .value())
                .isZero();
        assertThat(measure(exact(t -> t < 0 ? 50 : 45), back, 8, before)).isInstanceOf(NeverHappened.class);
    }

    /** Source: least squares by hand; levels 0, 10, 21, 30 psi at 0, 10, 20, 30 degrees leave −0.2, −0.4, 0.5, ... */
    @Test
    void theLinearityOfAStaircaseIsThatOfLeastSquares() {
        Map<String, Remembered> levels = staircase("up", 0, 10, 21, 30);
        Check check = staircase(StaircaseTerm.LINEARITY, plateaus("up", 4), List.of(), 0);
        Measured found = (Measured) measure(exact(t -> 0), check, 8, levels);
        // Slope (−15·0 − 5·10 + 5·21 + 15·30)/500 = 1.01, middle 15.25: at 20 degrees 20.3 against 21.
        assertThat(found.estimate().value() / PSI).isCloseTo(0.7, within(1e-9));
        assertThat(found.quantity()).contains("up, 2");
        assertThat(part(found.estimate(), "calibration/P")).isCloseTo(0, within(1e-9));
    }

    @Test
    void theOtherTermsOfAStaircaseAreDifferences() {
        Map<String, Remembered> levels = new HashMap<>(staircase("up", 0, 10, 21, 30));
        levels.putAll(staircase("down", 0.5, 11.5, 22, 30));
        List<Plateau> up = plateaus("up", 4);
        List<Plateau> down = plateaus("down", 4);
        assertThat(psi(staircase(StaircaseTerm.LEAST_STEP, up, List.of(), 0), levels))
                .isCloseTo(9, within(1e-9));
        assertThat(psi(staircase(StaircaseTerm.HYSTERESIS, up, down, 0), levels))
                .isCloseTo(-1.5, within(1e-9));
        List<Plateau> both = List.of(up.get(1), down.get(1));
        assertThat(psi(staircase(StaircaseTerm.REPEATABILITY, both, List.of(), 0), levels))
                .isCloseTo(1.5, within(1e-9));
    }

    /** Moves of 1, 2 and 4 degrees of which the first is not answered. */
    @Test
    void theSmallestGraduationIsTheSmallestMoveThatIsAnswered() {
        Map<String, Remembered> levels = staircase("fine", 20, 20.1, 22, 26);
        List<Plateau> at = List.of(
                new Plateau("fine, 0", CYLINDER, 10),
                new Plateau("fine, 1", CYLINDER, 11),
                new Plateau("fine, 2", CYLINDER, 13),
                new Plateau("fine, 3", CYLINDER, 17));
        Check check = staircase(StaircaseTerm.SMALLEST_GRADUATION, at, List.of(), 0.5);
        Measured found = (Measured) measure(exact(t -> 0), check, 8, levels);
        assertThat(found.estimate().value()).isCloseTo(2, within(1e-9));
        Check near = staircase(StaircaseTerm.SMALLEST_GRADUATION, at, List.of(), 0.1);
        assertThat(measure(exact(t -> 0), near, 8, levels)).isInstanceOf(NotMeasurable.class);
    }

    private static Check staircase(StaircaseTerm term, List<Plateau> levels, List<Plateau> with, double answer) {
        return new Check.Staircase(term, levels, with, answer * PSI, BAND);
    }

    private static double psi(Check check, Map<String, Remembered> levels) {
        return ((Measured) measure(exact(t -> 0), check, 8, levels)).estimate().value() / PSI;
    }

    private static List<Plateau> plateaus(String name, int count) {
        return IntStream.range(0, count)
                .mapToObj(i -> new Plateau(name + ", " + i, CYLINDER, 10 * i))
                .toList();
    }

    private static Map<String, Remembered> staircase(String name, double... psi) {
        Map<String, Remembered> levels = new HashMap<>();
        for (int i = 0; i < psi.length; i++) {
            levels.put(name + ", " + i, level(psi[i]));
        }
        return levels;
    }

    private static Remembered level(double psi) {
        Component calibration = new Component("calibration/P", 0.1 * PSI);
        Component noise = new Component("noise/" + psi, 0.005 * PSI);
        Estimate level = new Estimate(psi * PSI, Dimension.PRESSURE, List.of(calibration, noise));
        return new Remembered(level, List.of(new Mark("brake-cylinder@1", 500_000, psi * PSI, "mean")));
    }

    private static double part(Estimate estimate, String source) {
        return estimate.components().stream()
                .filter(c -> c.source().equals(source))
                .mapToDouble(Component::standard)
                .sum();
    }

    private static void refused(HandMade run, Check check, String words) {
        assertThat(measure(run, check, 12))
                .isInstanceOfSatisfying(
                        NotMeasurable.class, not -> assertThat(not.reason()).contains(words));
    }
}
