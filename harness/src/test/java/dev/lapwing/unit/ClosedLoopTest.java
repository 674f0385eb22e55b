package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.DesignOption;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Each controller with the reference train: what a workshop would see. Limits: common practice, no source. */
class ClosedLoopTest {

    @ParameterizedTest
    @EnumSource
    void theStaircaseIsWithinTwoPsiBothWaysAndDoesNotHunt(ControllerKind kind) {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind), 4).ready();
        double[] up = new double[11];
        for (int k = 1; k <= 10; k++) {
            int before = loop.applicationPulses();
            loop.in.handleDegrees = TestUnits.ep(k / 10.0);
            up[k] = loop.run(3).cylinderPsi(0);
            assertThat(up[k]).as("%s, %d %% up", kind, 10 * k).isCloseTo(5 * k, within(2.0));
            assertThat(loop.applicationPulses() - before)
                    .as("pulses, %s, %d %% up", kind, 10 * k)
                    .isBetween(1, 2);
        }
        int after = loop.applicationPulses();
        for (int k = 9; k >= 1; k--) {
            loop.in.handleDegrees = TestUnits.ep(k / 10.0);
            double down = loop.run(3).cylinderPsi(0);
            assertThat(down).as("%s, %d %% down", kind, 10 * k).isCloseTo(5 * k, within(2.0));
            assertThat(down - up[k]).as("hysteresis, %s, %d %%", kind, 10 * k).isCloseTo(0, within(3.0));
        }
        assertThat(loop.applicationPulses())
                .as("a release needs no filling, %s", kind)
                .isEqualTo(after);
        assertThat(loop.applicationAloneSeconds()).isZero();
    }

    @ParameterizedTest
    @EnumSource
    void aHeldDemandIsHeldInPeace(ControllerKind kind) {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind), 4).ready();
        for (int k = 1; k <= 10; k++) {
            loop.in.handleDegrees = TestUnits.ep(k / 10.0);
            loop.run(4);
            int before = loop.applicationPulses();
            double settled = loop.cylinderPsi(0);
            loop.run(30);
            assertThat(loop.applicationPulses()).as("%s, %d %%", kind, 10 * k).isEqualTo(before);
            assertThat(loop.cylinderPsi(0)).isCloseTo(settled, within(0.1));
        }
    }

    @ParameterizedTest
    @EnumSource
    void fullEpFillsInItsTimeAtEveryVehicleAndReleaseEmpties(ControllerKind kind) {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind), 12).ready();
        loop.in.handleDegrees = TestUnits.FULL_EP;
        // Independent model of the same train: 2.74 s at the lead, 20 ms later at the rear of twelve.
        assertThat(loop.until(5, () -> loop.cylinderPsi(11) >= 45)).isCloseTo(2.76, within(0.15));
        loop.run(4);
        assertThat(loop.cylinderPsi(0)).isCloseTo(50, within(2.0));
        assertThat(loop.cylinderPsi(11)).isCloseTo(loop.cylinderPsi(0), within(2.0));
        assertThat(loop.pipePsi(11)).as("the pipe is untouched").isCloseTo(70, within(1.0));
        loop.in.handleDegrees = TestUnits.RELEASE;
        loop.run(10);
        for (int k = 0; k < 12; k++) {
            assertThat(loop.cylinderPsi(k)).isLessThan(1);
        }
    }

    @ParameterizedTest
    @EnumSource
    void lapHoldsBothBrakes(ControllerKind kind) {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind), 4).ready();
        loop.in.handleDegrees = TestUnits.ep(0.5);
        loop.run(4);
        loop.in.handleDegrees = TestUnits.LAP;
        loop.run(1);
        double cylinder = loop.cylinderPsi(3);
        double pipe = loop.pipePsi(3);
        loop.run(120);
        assertThat(loop.cylinderPsi(3)).isCloseTo(cylinder, within(0.05));
        assertThat(loop.pipePsi(3)).isCloseTo(pipe, within(0.5));
    }

    @Test
    void aDemandThatCreepsInLapLetsTheBrakeLeakOff() {
        ControllerUnderTest worn =
                TestUnits.unit(ControllerKind.CLASSIC, Map.of(SimulationFigure.LAP_DRIFT, -2 * TestUnits.PSI / 60));
        ClosedLoop loop = new ClosedLoop(worn, 4).ready();
        loop.in.handleDegrees = TestUnits.ep(0.5);
        loop.run(4);
        loop.in.handleDegrees = TestUnits.LAP;
        double cylinder = loop.run(60).cylinderPsi(0);
        assertThat(loop.run(300).cylinderPsi(0)).isCloseTo(cylinder - 10, within(2.0));
    }

    @ParameterizedTest
    @EnumSource
    void thePipeIsGraduatedAndAnyReleaseIsAFullOne(ControllerKind kind) {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind), 4).ready();
        for (int k = 2; k <= 5; k++) {
            loop.in.handleDegrees = TestUnits.automatic(k / 5.0);
            loop.run(12);
            assertThat(loop.pipePsi(3)).as("%s, %d %%", kind, 20 * k).isCloseTo(70 - 4 * k, within(1.5));
        }
        assertThat(loop.cylinderPsi(3)).isCloseTo(50, within(2.0));
        double braked = loop.pipePsi(3);
        loop.in.handleDegrees = TestUnits.automatic(0.5);
        assertThat(loop.run(10).pipePsi(3))
                .as("the handle taken back feeds nothing")
                .isCloseTo(braked, within(1.0));
        loop.in.handleDegrees = TestUnits.FULL_EP;
        assertThat(loop.run(10).pipePsi(3)).as("nor does full EP").isCloseTo(braked, within(1.0));
        loop.in.handleDegrees = TestUnits.RELEASE;
        loop.until(20, () -> loop.pipePsi(3) > braked + 4);
        loop.in.handleDegrees = TestUnits.LAP;
        assertThat(loop.run(20).cylinderPsi(3)).as("direct release").isLessThan(2);
    }

    @Test
    void anInstantDeadmanEmptiesThePipeWhollyWithTheFeedCut() {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(ControllerKind.CLASSIC), 4).ready();
        loop.in.speedMetresPerSecond = 10;
        loop.run(1);
        loop.in.deadmanHeld = false;
        // Independent model of the same train: 0.87 s to 52 psi, with the vent opened at once.
        assertThat(loop.until(3, () -> loop.pipePsi(0) <= 52)).isCloseTo(0.87 + 0.08, within(0.15));
        assertThat(loop.run(8).pipePsi(3))
                .as("a feed left open would end it at 13 to 20 psi")
                .isLessThan(3);
        assertThat(loop.cylinderPsi(3)).isGreaterThan(45);
        loop.in.deadmanHeld = true;
        assertThat(loop.run(10).pipePsi(0)).as("held again, and nothing else").isLessThan(3);
        loop.in.handleDegrees = TestUnits.EMERGENCY;
        loop.run(2);
        loop.in.speedMetresPerSecond = 0;
        loop.run(1);
        loop.in.handleDegrees = TestUnits.RELEASE;
        assertThat(loop.run(20).pipePsi(3)).as("reset in order").isGreaterThan(65);
    }

    @Test
    void aDelayedDeadmanWarnsFirst() {
        ControllerUnderTest unit = TestUnits.unit(
                ControllerKind.RETROFIT, Map.of(SimulationFigure.DEADMAN_TIME, 3.0), DesignOption.DEADMAN_DELAYED);
        ClosedLoop loop = new ClosedLoop(unit, 4).ready();
        loop.in.speedMetresPerSecond = 10;
        loop.run(1);
        loop.in.deadmanHeld = false;
        assertThat(loop.until(1, () -> loop.out.isOn(UnitWire.WARNING_SOUNDER))).isLessThan(0.02);
        assertThat(loop.until(5, () -> loop.out.valve().dumpShare() > 0)).isCloseTo(3.0, within(0.02));
        assertThat(loop.run(8).pipePsi(3)).isLessThan(3);
    }

    @ParameterizedTest
    @EnumSource
    void emergencyEmptiesThePipeAndIsNotTakenBackWhileMoving(ControllerKind kind) {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind), 4).ready();
        loop.in.speedMetresPerSecond = 20;
        loop.in.handleDegrees = TestUnits.EMERGENCY;
        // Independent model of the same train: 0.28 s to 52 psi, with the port opened at once.
        assertThat(loop.until(2, () -> loop.pipePsi(0) <= 52)).isCloseTo(0.28 + 0.03, within(0.1));
        loop.in.handleDegrees = TestUnits.RELEASE;
        assertThat(loop.run(10).pipePsi(3)).isLessThan(3);
        loop.in.speedMetresPerSecond = 0;
        assertThat(loop.run(20).pipePsi(3)).as("at standstill it is fed again").isGreaterThan(65);
    }

    @ParameterizedTest
    @EnumSource
    void withoutEpSupplyTheAutomaticBrakeIsWhole(ControllerKind kind) {
        ClosedLoop loop = new ClosedLoop(TestUnits.unit(kind), 4).ready();
        loop.in.epSupplyVolts = 0;
        loop.in.handleDegrees = TestUnits.FULL_EP;
        assertThat(loop.run(5).cylinderPsi(3)).isLessThan(1);
        loop.in.handleDegrees = TestUnits.FULL_SERVICE;
        // Independent model of the same train: 4.27 s at the rear of four.
        assertThat(loop.until(8, () -> loop.cylinderPsi(3) >= 45)).isCloseTo(4.3, within(0.4));
    }

    @Test
    void aBandBelowTheRateTimesTheDropOutTimeHunts() {
        ControllerUnderTest hunting = TestUnits.unit(
                ControllerKind.CLASSIC,
                Map.of(
                        SimulationFigure.LAPPING_BAND_APPLY, 0.3 * TestUnits.PSI,
                        SimulationFigure.LAPPING_BAND_RELEASE, 0.3 * TestUnits.PSI));
        ClosedLoop loop = new ClosedLoop(hunting, 4).ready();
        loop.in.handleDegrees = TestUnits.ep(0.5);
        loop.run(30);
        assertThat(loop.applicationPulses()).isGreaterThan(10);
    }
}
