package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.quantity.Dimension;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Quantities measured together, whose errors go together: each set of observations is a source of its own, which all
 * means of that set owe to alike. Source: JCGM 100:2008 (GUM), annex H.2, tables H.2 and H.3; published values as read
 * in sandialabs/suncal, commit d44c2cc.
 */
class CorrelatedReferenceTest {
    private static final double[] VOLTS = {5.007, 4.994, 5.005, 4.990, 4.999};
    private static final double[] AMPERES = {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3};
    private static final double[] RADIANS = {1.0456, 1.0438, 1.0468, 1.0428, 1.0433};

    private final Estimate v = mean(VOLTS);
    private final Estimate i = mean(AMPERES);
    private final Estimate phi = mean(RADIANS);

    /** R = V cos phi / I, X = V sin phi / I, Z = V / I, in ohm. */
    private final Estimate r = of(
            v.value() / i.value() * Math.cos(phi.value()),
            Math.cos(phi.value()) / i.value(),
            -v.value() * Math.cos(phi.value()) / (i.value() * i.value()),
            -v.value() / i.value() * Math.sin(phi.value()));

    private final Estimate x = of(
            v.value() / i.value() * Math.sin(phi.value()),
            Math.sin(phi.value()) / i.value(),
            -v.value() * Math.sin(phi.value()) / (i.value() * i.value()),
            v.value() / i.value() * Math.cos(phi.value()));

    private final Estimate z = of(v.value() / i.value(), 1 / i.value(), -v.value() / (i.value() * i.value()), 0);

    /** Table H.2. */
    @Test
    void meansAndWhatTheyHaveInCommonAreAsPublished() {
        assertThat(v.value()).isCloseTo(4.9990, within(5e-5));
        assertThat(v.standardUncertainty()).isCloseTo(0.0032, within(5e-5));
        assertThat(i.value()).isCloseTo(19.6610e-3, within(5e-8));
        assertThat(i.standardUncertainty()).isCloseTo(0.0095e-3, within(5e-8));
        assertThat(phi.value()).isCloseTo(1.04446, within(5e-6));
        assertThat(phi.standardUncertainty()).isCloseTo(0.00075, within(5e-6));
        assertThat(correlation(v, i)).isCloseTo(-0.36, within(0.005));
        assertThat(correlation(v, phi)).isCloseTo(0.86, within(0.005));
        assertThat(correlation(i, phi)).isCloseTo(-0.65, within(0.005));
    }

    /** Table H.3; the published 0.295 ohm of the reactance is 0.29558 ohm from these figures unrounded. */
    @Test
    void resistanceReactanceAndImpedanceAreAsPublished() {
        assertThat(r.value()).isCloseTo(127.732, within(5e-4));
        assertThat(r.standardUncertainty()).isCloseTo(0.071, within(5e-4));
        assertThat(x.value()).isCloseTo(219.847, within(1e-3));
        assertThat(x.standardUncertainty()).isCloseTo(0.295, within(1e-3));
        assertThat(z.value()).isCloseTo(254.260, within(5e-4));
        assertThat(z.standardUncertainty()).isCloseTo(0.236, within(5e-4));
    }

    @Test
    void whatTheResultsHaveInCommonIsAsPublished() {
        assertThat(correlation(r, x)).isCloseTo(-0.588, within(5e-4));
        assertThat(correlation(r, z)).isCloseTo(-0.485, within(5e-4));
        assertThat(correlation(x, z)).isCloseTo(0.993, within(5e-4));
    }

    /** The impedance from resistance and reactance is the same as from the observations, and as doubtful. */
    @Test
    void aQuantityTakenFromCorrelatedResultsIsAsDoubtfulAsTakenAtOnce() {
        double length = Math.hypot(r.value(), x.value());
        Estimate again = r.combine(r.value() / length, x.value() / length, x);
        assertThat(length).isCloseTo(z.value(), within(1e-10));
        assertThat(again.standardUncertainty()).isCloseTo(z.standardUncertainty(), within(1e-10));
    }

    /** JCGM 100:2008, 5.2.3: the covariance of two means is that of their sets over n (n - 1). */
    private static Estimate mean(double[] observed) {
        int n = observed.length;
        double mean = Arrays.stream(observed).sum() / n;
        List<Component> sets = new ArrayList<>();
        for (int k = 0; k < n; k++) {
            sets.add(new Component("set " + k, (observed[k] - mean) / Math.sqrt(n * (n - 1.0))));
        }
        return new Estimate(mean, Dimension.COUNT, sets);
    }

    private Estimate of(double value, double byVolts, double byAmperes, double byRadians) {
        Estimate sum = v.combine(byVolts, byAmperes, i).combine(1, byRadians, phi);
        return new Estimate(value, Dimension.COUNT, sum.components());
    }

    /** From the uncertainty of a sum: u²(a + b) = u²(a) + u²(b) + 2 r u(a) u(b), of a and b over their own. */
    private static double correlation(Estimate a, Estimate b) {
        double sum = a.combine(1 / a.standardUncertainty(), 1 / b.standardUncertainty(), b)
                .standardUncertainty();
        return sum * sum / 2 - 1;
    }
}
