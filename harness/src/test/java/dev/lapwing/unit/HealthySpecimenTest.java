package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.plant.Passage;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Controllers and chokes drawn inside the tolerances of a healthy unit still lap quietly and near the demand. A vehicle
 * that follows open loop is allowed more, for the errors of its chokes add up from step to step.
 */
class HealthySpecimenTest {
    private static final double PSI = TestUnits.PSI;
    private static final int CARS = 4;
    private static final int SPECIMENS = 12;

    @ParameterizedTest
    @EnumSource
    void everyOneOfThemLapsWithinTwoPsiAndInAtMostTwoPulses(ControllerKind kind) {
        for (long seed = 1; seed <= SPECIMENS; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind, drawn(kind, random)), CARS);
            for (int k = 0; k < CARS; k++) {
                loop.train.choke(Passage.EP_APPLY, k, 1 + either(random, 0.025));
                loop.train.choke(Passage.EP_EXHAUST, k, 1 + either(random, 0.025));
            }
            loop.ready();
            for (int step = 1; step <= 19; step++) {
                int tenths = step <= 10 ? step : 20 - step;
                int before = loop.applicationPulses();
                loop.in.handleDegrees = TestUnits.ep(tenths / 10.0);
                loop.run(3);
                String what = kind + ", seed " + seed + ", step " + step;
                assertThat(loop.cylinderPsi(0)).as(what).isCloseTo(5 * tenths, within(2.0));
                assertThat(loop.cylinderPsi(CARS - 1)).as(what).isCloseTo(loop.cylinderPsi(0), within(3.5));
                assertThat(loop.applicationPulses() - before).as(what).isLessThanOrEqualTo(2);
            }
        }
    }

    private static Map<SimulationFigure, Double> drawn(ControllerKind kind, SplittableRandom random) {
        double contactor = kind == ControllerKind.CLASSIC ? 0.008 : 0.003;
        return Map.of(
                SimulationFigure.LAPPING_BAND_APPLY, PSI * (1 + either(random, 0.1)),
                SimulationFigure.LAPPING_BAND_RELEASE, PSI * (1 + either(random, 0.1)),
                SimulationFigure.EP_FULL_PRESSURE, PSI * (50 + either(random, 0.4)),
                SimulationFigure.FEEDBACK_ERROR, PSI * either(random, 0.3),
                SimulationFigure.CONTACTOR_TIME, contactor * (1 + either(random, 0.25)));
    }

    /** Evenly drawn to both sides of zero. */
    private static double either(SplittableRandom random, double halfWidth) {
        return halfWidth * (2 * random.nextDouble() - 1);
    }
}
