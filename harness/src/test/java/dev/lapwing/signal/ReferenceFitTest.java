package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ReferenceFitTest {

    @Test
    void aTransducerOnALineIsFoundExactly() {
        ReferenceFit fit = ReferenceFit.line(upAndDown(value -> 2000 + 4 * value, 0));

        assertThat(fit.knots()).hasSize(2);
        assertThat(fit.knots().get(0).counts()).isCloseTo(2000, within(1e-6));
        assertThat(fit.knots().get(1).counts()).isCloseTo(2400, within(1e-6));
        assertThat(fit.standard()).isCloseTo(0, within(1e-9));
        assertThat(fit.noise()).isCloseTo(2.0 / 4, within(1e-9));
        assertThat(fit.resolution()).isCloseTo(0.25 / Math.sqrt(12), within(1e-9));
    }

    @Test
    void hysteresisIsInTheDoubtOfBoth() {
        List<ReferenceReading> readings = upAndDown(value -> 2000 + 4 * value, 2);

        assertThat(ReferenceFit.line(readings).standard()).isBetween(0.4, 1.0);
        assertThat(ReferenceFit.table(readings).standard()).isBetween(0.4, 1.0);
        assertThat(ReferenceFit.line(readings).residuals()).hasSize(readings.size());
    }

    @Test
    void aTableFollowsACurveAndOwnsUpToWhatLiesBetween() {
        // counts = x, value = x²/1000 between 100 and 500: second difference h²·f'' = 100²·2/1000 = 20 counts of value.
        List<ReferenceReading> readings = new ArrayList<>();
        for (int x : new int[] {100, 200, 300, 400, 500, 400, 300, 200, 100}) {
            readings.add(new ReferenceReading(x * x / 1000.0, x, 0, 100));
        }
        ReferenceFit table = ReferenceFit.table(readings);

        assertThat(table.knots()).hasSize(5);
        assertThat(table.standard()).isCloseTo(20.0 / 8 / Math.sqrt(3), within(1e-9));
        assertThat(table.standard()).isLessThan(ReferenceFit.line(readings).standard());
    }

    /**
     * Of x²/1000 at 300 + 100·t, t = −2 … 2, a line leaves 10·(2 − t²): 20 in the middle, −20 at both ends. A table
     * leaves none.
     */
    @Test
    void aLineThroughACurveOwnsUpToItsBow() {
        List<ReferenceReading> readings = new ArrayList<>();
        for (int x : new int[] {100, 200, 300, 400, 500, 500, 400, 300, 200, 100}) {
            readings.add(new ReferenceReading(x * x / 1000.0, x, 0, 100));
        }

        assertThat(ReferenceFit.line(readings).bow()).isCloseTo(40, within(1e-9));
        assertThat(ReferenceFit.polynomial(readings, 2).bow()).isLessThan(1);
        ReferenceFit table = ReferenceFit.table(readings);
        assertThat(table.bow()).isCloseTo(0, within(1e-9));
        assertThat(table.span()).isCloseTo(Math.sqrt(2) * table.standard(), within(1e-9));
    }

    @Test
    void readingsThatRiseOnlyAreNotEnough() {
        List<ReferenceReading> rising =
                List.of(new ReferenceReading(0, 2000, 1, 100), new ReferenceReading(100, 2400, 1, 100));

        assertThat(ReferenceFit.wanting(rising))
                .hasValueSatisfying(why -> assertThat(why).contains("falling"));
        assertThat(ReferenceFit.wanting(List.of())).isPresent();
    }

    @Test
    void countsThatFallWithTheValueAreRefused() {
        assertThat(ReferenceFit.wanting(upAndDown(value -> 2000 - 4 * value, 0)))
                .hasValueSatisfying(why -> assertThat(why).contains("do not rise"));
    }

    @Test
    void aCurveFollowsATransducerThatIsNotStraightAndItsKnotsFollowTheCurve() {
        // value = x + x²/2000 over 0 … 1000 counts: the line leaves tens, the curve nothing.
        List<ReferenceReading> readings = new ArrayList<>();
        for (int x : new int[] {0, 250, 500, 750, 1000, 750, 500, 250, 0}) {
            readings.add(new ReferenceReading(x + x * x / 2000.0, x, 0, 100));
        }
        ReferenceFit curve = ReferenceFit.polynomial(readings, 2);

        assertThat(ReferenceFit.wanting(readings, 2)).isEmpty();
        assertThat(ReferenceFit.line(readings).standard()).isGreaterThan(20);
        // A tenth of a count's 1.5 units at most between knots, each error up to it as likely.
        assertThat(curve.standard()).isPositive().isLessThanOrEqualTo(0.15 / Math.sqrt(3));
        for (ReferenceFit.Knot knot : curve.knots()) {
            double x = knot.counts();
            assertThat(knot.value()).isCloseTo(x + x * x / 2000, within(1e-9));
        }
    }

    @Test
    void aCurveWantsMoreValuesThanItHasCoefficientsAndMustNotTurn() {
        List<ReferenceReading> few = upAndDown(value -> 2000 + 4 * value, 0).subList(0, 3);
        List<ReferenceReading> bent = new ArrayList<>();
        for (double[] each : new double[][] {{0, 0}, {300, 70}, {600, 97}, {900, 100}, {600, 97}, {300, 70}, {0, 0}}) {
            bent.add(new ReferenceReading(each[1], each[0], 0, 100));
        }

        assertThat(ReferenceFit.wanting(few, 2)).isPresent();
        assertThat(ReferenceFit.wanting(upAndDown(value -> 2000 + 4 * value, 0), 3))
                .isEmpty();
        assertThat(ReferenceFit.wanting(bent, 2))
                .hasValueSatisfying(why -> assertThat(why).contains("turns round"));
    }

    private interface Law {
        double counts(double value);
    }

    /** 0, 25 … 100 and back; what falls reads that many counts above the law, what rises below it. */
    private static List<ReferenceReading> upAndDown(Law law, double hysteresis) {
        List<ReferenceReading> readings = new ArrayList<>();
        for (int value = 0; value <= 100; value += 25) {
            readings.add(new ReferenceReading(value, law.counts(value) - hysteresis, 2, 400));
        }
        for (int value = 75; value >= 0; value -= 25) {
            readings.add(new ReferenceReading(value, law.counts(value) + hysteresis, 2, 400));
        }
        return readings;
    }
}
