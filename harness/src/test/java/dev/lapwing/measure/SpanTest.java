package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Check.Plateau;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Traces;
import dev.lapwing.uncertainty.Along;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** What a calibration leaves along the range, in what is told by differences of one transducer's levels. */
class SpanTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final double STANDARD = 0.1 * PSI;
    /** Of a span known to 0.08 psi over 100 psi. */
    private static final Along KNOWN = Along.of(0, 100 * PSI, 0.08 * PSI, STANDARD);

    private static final Along UNKNOWN = Along.of(0, 100 * PSI, 0.2 * PSI, STANDARD);

    @Test
    void aChangeOwesToTheSpanByHowFarItGoes() {
        double known = systematic(change(KNOWN, 0, 50));
        // Half of the range: 2u·sin(asin(0.08/0.2)/2), a little more than half of 0.08 psi.
        assertThat(known).isCloseTo(0.2 * PSI * Math.sin(Math.asin(0.4) / 2), within(1e-4 * PSI));
        assertThat(known).isBetween(0.04 * PSI, 0.042 * PSI);
        assertThat(systematic(change(KNOWN, 20, 25))).isBetween(0.004 * PSI, 0.0043 * PSI);
        assertThat(systematic(change(UNKNOWN, 0, 50))).isCloseTo(0.2 * PSI * Math.sin(Math.PI / 4), within(1e-4 * PSI));
        assertThat(change(Along.CONSTANT, 0, 50).components())
                .noneMatch(part -> part.source().endsWith(Component.ALONG));
    }

    /** A level owes to its certificate what this says, a difference as much less as both ends are off alike. */
    @Test
    void bothPartsAreToldAsOneLineOfTheCertificate() {
        Component level = level(UNKNOWN, 3).lines().get(0);
        assertThat(level.source()).isEqualTo("calibration/BC1");
        assertThat(level.standard()).isCloseTo(STANDARD, within(1e-9));
        assertThat(level.sensitivity().orElseThrow()).isCloseTo(1, within(1e-12));
        Estimate change = change(UNKNOWN, 3, 9);
        assertThat(change.dominant().orElseThrow().source()).isEqualTo("calibration/BC1");
        assertThat(change.lines()).hasSizeLessThan(change.components().size());
        assertThat(Math.abs(change.dominant().orElseThrow().sensitivity().orElseThrow()))
                .isCloseTo(2 * Math.sin(Math.PI / 2 * 0.06), within(1e-9));
    }

    @Test
    void aLevelIsAsDoubtfulAsBefore() {
        for (double level : new double[] {0, 3, 50, 100}) {
            assertThat(systematic(level(KNOWN, level))).isCloseTo(STANDARD, within(1e-9));
            assertThat(systematic(level(UNKNOWN, level))).isCloseTo(STANDARD, within(1e-9));
        }
    }

    /** A leak of 1 psi in 10 s with a gain that is off by a thousandth is off by a thousandth. */
    @Test
    void aLeakOwesToTheSpanWhatItsFallDoes() {
        Measured leak = (Measured) measured(
                KNOWN,
                t -> 50 - 0.1 * t,
                new Check.Leak(CYLINDER, 0, 10, Limits.atMost(Dimension.LEAK_RATE, PSI)),
                Map.of());
        double relative = systematic(leak.estimate()) / leak.estimate().value();
        assertThat(relative).isBetween(0.0008, 0.00085);
        Measured still = (Measured) measured(
                UNKNOWN,
                t -> 50 + 0.02 * Math.sin(900 * t),
                new Check.Leak(CYLINDER, 0, 10, Limits.atMost(Dimension.LEAK_RATE, PSI)),
                Map.of());
        assertThat(systematic(still.estimate()))
                .isLessThan(1e-3 * still.estimate().standardUncertainty());
    }

    @Test
    void aSteepestRateOwesToTheSpanWhatItsMoveDoes() {
        Check.SteepestRate check =
                new Check.SteepestRate(CYLINDER, true, 1, 10, Limits.atMost(Dimension.PRESSURE_RATE, 10 * PSI));
        Measured rise = (Measured) measured(KNOWN, t -> 10 + 5 * t, check, Map.of());
        assertThat(systematic(rise.estimate()) / rise.estimate().value()).isBetween(0.0008, 0.00085);
    }

    /** A place that is visited twice reads alike; a gain that is off makes no staircase crooked, and its steps less. */
    @Test
    void aStaircaseOwesToItWhatItsTermDoes() {
        assertThat(term(StaircaseTerm.HYSTERESIS)).isZero();
        assertThat(term(StaircaseTerm.REPEATABILITY)).isZero();
        assertThat(term(StaircaseTerm.LEAST_STEP)).isBetween(0.008 * PSI, 0.0083 * PSI);
        assertThat(term(StaircaseTerm.LINEARITY)).isBetween(0.0, 0.002 * PSI);
    }

    private static double term(StaircaseTerm term) {
        Map<String, Remembered> levels = new HashMap<>();
        List<Plateau> there = way("there", levels);
        List<Plateau> back = way("back", levels);
        List<Plateau> all = new ArrayList<>(there);
        if (term == StaircaseTerm.REPEATABILITY) {
            all.addAll(back);
        }
        Check check = new Check.Staircase(term, all, back, 0, Limits.psi(-2, 2));
        Estimate told = ((Measured) measured(KNOWN, t -> 0, check, levels)).estimate();
        return systematic(told);
    }

    private static List<Plateau> way(String name, Map<String, Remembered> into) {
        List<Plateau> plateaus = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            String place = name + ", " + i;
            List<Component> parts = Systematic.at(10 * i * PSI, instrument(KNOWN), Dimension.PRESSURE);
            into.put(place, new Remembered(new Estimate(10 * i * PSI, Dimension.PRESSURE, parts), List.of()));
            plateaus.add(new Plateau(place, CYLINDER, 10 * i));
        }
        return plateaus;
    }

    private static Estimate change(Along along, double from, double to) {
        Instrument instrument = instrument(along);
        return level(instrument, to).minus(level(instrument, from));
    }

    private static Estimate level(Along along, double psi) {
        return level(instrument(along), psi);
    }

    private static Estimate level(Instrument instrument, double psi) {
        return Levels.reading(
                psi * PSI, instrument, Input.stated(0.001 * PSI, Dimension.PRESSURE), "at " + psi + " psi");
    }

    private static Measurement measured(
            Along along, DoubleUnaryOperator psi, Check check, Map<String, Remembered> remembered) {
        Trace trace = Traces.of(12_000, 1000, t -> psi.applyAsDouble(t) * PSI);
        HandMade recording = new HandMade(12, 1).channel(CYLINDER, trace, instrument(along), -10 * PSI, 110 * PSI);
        return new Measuring(recording, new Words(PressureDisplay.PSI))
                .measure(check, new ExpectationWindow("x", 0, 0, 12_000_000, true), 0, remembered);
    }

    private static Instrument instrument(Along along) {
        return new Instrument("BC1", STANDARD, 0, along, 0.001 * PSI, 0.02 * PSI, 20, true, 0, "bench", 20e-6);
    }

    /** What of the calibration is left in it. */
    private static double systematic(Estimate estimate) {
        double sum = 0;
        for (Component part : estimate.components()) {
            boolean own = part.source().startsWith("calibration/");
            sum += own ? part.standard() * part.standard() : 0;
        }
        return Math.sqrt(sum);
    }
}
