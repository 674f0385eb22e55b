package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.finding.Limit;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.signal.Traces;
import dev.lapwing.uncertainty.Estimate;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

/** Analytic waveforms of one cylinder, as functions of the time in s since the stimulus, which is at 1 s, in psi. */
final class Waveforms {
    static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    static final Limit TIME = Limits.atMost(Dimension.TIME, 3);
    static final Limit SHARE = Limits.atMost(Dimension.RATIO, 0.1);
    static final Limit BAND = Limits.psi(-1, 1);
    static final Check.States MEANS = new Check.States(OptionalDouble.empty(), OptionalDouble.empty(), false, 0.5);

    private Waveforms() {}

    static Check term(ResponseTerm term, double share, Limit limit) {
        return new Check.Response(CYLINDER, term, share, MEANS, 9, 1, limit);
    }

    static double fill(double t, double tau) {
        return t <= 0 ? 0 : 1 - StrictMath.exp(-t / tau);
    }

    /** Step response of a second-order system of that damping and natural angular frequency. */
    static double secondOrder(double t, double damping, double natural) {
        if (t <= 0) {
            return 0;
        }
        double root = StrictMath.sqrt(1 - damping * damping);
        double phase = natural * root * t;
        return 1
                - StrictMath.exp(-damping * natural * t)
                        * (StrictMath.cos(phase) + damping / root * StrictMath.sin(phase));
    }

    static HandMade exact(DoubleUnaryOperator psi) {
        return new HandMade(12, 1).exact(CYLINDER, Traces.of(12_000, 1000, t -> PSI * psi.applyAsDouble(t - 1)));
    }

    static HandMade noisy(DoubleUnaryOperator psi) {
        return new HandMade(12, 3).pressure("brake-cylinder@1", t -> psi.applyAsDouble(t - 1));
    }

    static Estimate value(HandMade run, Check check) {
        Measurement found = measure(run, check, 12);
        assertThat(found).isInstanceOf(Measured.class);
        return ((Measured) found).estimate();
    }

    static Measurement measure(HandMade run, Check check, double closed) {
        return measure(run, check, closed, Map.of());
    }

    static Measurement measure(HandMade run, Check check, double closed, Map<String, Remembered> remembered) {
        ExpectationWindow window = new ExpectationWindow("x", 1_000_000, 1_000_000, Math.round(closed * 1e6), true);
        return new Measuring(run, new Words(PressureDisplay.PSI)).measure(check, window, 100, remembered);
    }
}
