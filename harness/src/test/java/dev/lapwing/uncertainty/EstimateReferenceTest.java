package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.quantity.Dimension;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Source: JCGM 100:2008 (GUM), annex H.1, and JCGM 101:2008, 9.2. */
class EstimateReferenceTest {

    /** H.1, end gauge: contributions 25, 9.7, 2.9 and 16.6 nm combine to 32 nm. */
    @Test
    void theEndGaugesBudgetIsAsPublished() {
        Estimate length = new Estimate(
                50_000_838e-9,
                Dimension.LENGTH,
                List.of(
                        new Component("standard", 25e-9),
                        new Component("comparison", 9.7e-9),
                        new Component("expansion", 2.9e-9),
                        new Component("temperature", 16.6e-9)));
        assertThat(length.standardUncertainty()).isCloseTo(32e-9, within(0.5e-9));
    }

    /**
     * H.1.6: the comparison's 9.7 nm rests on 5.8 nm (24), on 10 nm at 95 % (5; t is 2.57) and on 20 nm at k = 3
     * (8), so on 25.6 degrees of freedom; the
     * length's 32 nm on the standard's 25 nm (18), that 9.7 nm, 2.9 nm (50) and 16.6 nm (2), so on 16.
     */
    @Test
    void theEndGaugesDegreesOfFreedomAreAsPublished() {
        Estimate comparison = new Estimate(
                215e-9,
                Dimension.LENGTH,
                List.of(part("a", 5.8e-9, 24), part("b", 10e-9 / 2.57, 5), part("c", 20e-9 / 3, 8)));
        assertThat(comparison.standardUncertainty()).isCloseTo(9.7e-9, within(0.05e-9));
        assertThat(comparison.degreesOfFreedom().orElseThrow()).isCloseTo(25.6, within(0.1));

        Estimate length = new Estimate(
                50_000_838e-9,
                Dimension.LENGTH,
                List.of(
                        part("standard", 25e-9, 18),
                        part("comparison", 9.7e-9, 25.6),
                        part("expansion", 2.9e-9, 50),
                        part("temperature", 16.6e-9, 2)));
        assertThat(length.degreesOfFreedom().orElseThrow()).isBetween(16.0, 17.0);
        // U99 = 2.92 * 32 nm = 93 nm; with the standard uncertainty not rounded, 92.5 nm.
        double factor =
                Student.quantile(0.995, Math.floor(length.degreesOfFreedom().orElseThrow()));
        assertThat(factor * 32e-9).isCloseTo(93e-9, within(0.6e-9));
    }

    /**
     * H.1, from its inputs: l = ls + d - ls (da theta + alpha dt), with ls 50.000623 mm (u 25 nm), d 215 nm (u 9.7 nm),
     * da within 1e-6 about 0, theta -0.1 degrees with u 0.41 degrees, alpha 11.5e-6 within 2e-6, dt within 0.05 degrees
     * about 0. Published: 50.000838 mm, u 32 nm to first order, in which what is 0 hides alpha and theta. With the
     * terms of second order, 11.7 nm of da by theta and 1.7 nm of alpha by dt, 34 nm (H.1.7, from memory).
     */
    @Test
    void theEndGaugeFromItsInputsIsAsPublished() {
        double gauge = 50.000623e-3;
        double theta = -0.1;
        double alpha = 11.5e-6;
        Input da = Input.within(1e-6, Dimension.RATIO);
        Input dt = Input.within(0.05, Dimension.RATIO);
        Estimate length = new Estimate(
                gauge + 215e-9,
                Dimension.LENGTH,
                List.of(
                        new Component("standard", 25e-9),
                        new Component("comparison", 9.7e-9),
                        Component.of("expansion", -gauge * theta, da),
                        Component.of("temperature", -gauge * alpha, dt)));
        assertThat(length.value()).isCloseTo(50.000838e-3, within(0.5e-9));
        assertThat(length.components().get(2).standard()).isCloseTo(2.9e-9, within(0.05e-9));
        assertThat(Math.abs(length.components().get(3).standard())).isCloseTo(16.6e-9, within(0.05e-9));
        assertThat(length.standardUncertainty()).isCloseTo(32e-9, within(0.5e-9));

        double deviation = 0.41;
        double secondOrder = gauge
                * Math.hypot(
                        da.standard() * deviation,
                        Input.within(2e-6, Dimension.RATIO).standard() * dt.standard());
        assertThat(length.with(new Component("second order", secondOrder)).standardUncertainty())
                .isCloseTo(34e-9, within(0.5e-9));
    }

    private static Component part(String source, double standard, double freedom) {
        return Component.of(source, 1, Input.observed(standard, Dimension.LENGTH, freedom));
    }

    /** 9.2: four inputs with standard uncertainty 1, normal or rectangular, add to 2. */
    @Test
    void fourInputsOfOneAddToTwo() {
        double rectangular = Estimate.rectangular(Math.sqrt(3));
        Estimate sum = new Estimate(
                0,
                Dimension.COUNT,
                List.of(
                        new Component("1", rectangular),
                        new Component("2", rectangular),
                        new Component("3", 1),
                        new Component("4", 1)));
        assertThat(sum.standardUncertainty()).isCloseTo(2, within(1e-15));
    }
}
