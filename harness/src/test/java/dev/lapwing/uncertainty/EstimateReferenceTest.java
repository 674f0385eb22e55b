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
