package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.plant.CabValve;
import java.util.Map;
import org.junit.jupiter.api.Test;

class RetrofitControllerTest {
    private static final double STEP = HandWound.STEP_SECONDS;
    private static final double UN = TestUnits.UN;
    private static final double PSI = TestUnits.PSI;
    /** Two scans until a switch counts. */
    private static final double SEEN = 0.011;

    private static HandWound cab(DesignOption... stated) {
        return new HandWound(TestUnits.unit(ControllerKind.RETROFIT, stated));
    }

    private static HandWound cab(SimulationFigure figure, double value) {
        return new HandWound(TestUnits.unit(ControllerKind.RETROFIT, Map.of(figure, value)));
    }

    private static void allOff(HandWound cab) {
        for (UnitWire wire : UnitWire.values()) {
            assertThat(cab.on(wire)).as("%s at %s s", wire, cab.seconds()).isFalse();
        }
    }

    // --- start ---

    @Test
    void untilItIsReadyEveryOutputIsSafeWhateverTheInputsAre() {
        HandWound cab = cab().handle(TestUnits.ep(0.5));
        cab.in.controlSupplyVolts = UN;
        cab.in.epSupplyVolts = UN;
        cab.in.masterOn = true;
        cab.in.deadmanHeld = true;
        cab.in.brakePipePascals = 70 * PSI;
        for (int ms = 0; ms < 3000; ms++) {
            cab.step();
            allOff(cab);
            assertThat(cab.out.valve()).isEqualTo(CabValve.LAP);
        }
        assertThat(cab.until(1, () -> cab.on(UnitWire.EP_SUPPLY_LAMP))).isCloseTo(0.1, within(0.02));
    }

    @Test
    void startingWithTheHandleAnywhereGivesNoEpPulse() {
        for (double degrees = 3; degrees <= 105; degrees += 6) {
            HandWound cab = cab().handle(degrees);
            cab.in.controlSupplyVolts = UN;
            cab.in.masterOn = true;
            assertThat(cab.until(8, () -> cab.on(UnitWire.APPLICATION) || cab.on(UnitWire.HOLDING) || cab.feeds()))
                    .as("%s degrees", degrees)
                    .isNaN();
        }
    }

    @Test
    void aShortInterruptionIsNotSeenAtAnyOutput() {
        HandWound cab = cab().driving(2);
        for (int i = 0; i < 10; i++) {
            cab.in.controlSupplyVolts = 0;
            for (int ms = 0; ms < 20; ms++) {
                cab.step();
                assertThat(cab.on(UnitWire.TRACTION)).isTrue();
                assertThat(cab.feeds()).isTrue();
            }
            cab.in.controlSupplyVolts = UN;
            cab.run(0.2);
        }
    }

    @Test
    void aLongInterruptionUnderWayBrakesAndOnlyTheResetOrderRecovers() {
        HandWound cab = cab().driving(2).handle(TestUnits.ep(0.5)).run(1);
        assertThat(cab.on(UnitWire.APPLICATION)).isTrue();
        cab.in.controlSupplyVolts = 0;
        assertThat(cab.until(1, cab::dumps)).isCloseTo(0.020, within(2 * STEP));
        cab.run(0.1);
        allOff(cab);
        cab.in.controlSupplyVolts = UN;
        cab.in.brakePipePascals = 0;
        cab.run(10);
        assertThat(cab.dumps()).as("ready, and still braked").isTrue();
        cab.handle(TestUnits.RELEASE).run(5);
        assertThat(cab.dumps()).isTrue();
        cab.handle(TestUnits.FULL_SERVICE).run(0.1);
        assertThat(cab.dumps()).isFalse();
        cab.handle(TestUnits.RELEASE).run(0.1);
        assertThat(cab.feeds()).isTrue();
    }

    @Test
    void theEmergencyContactWorksPastDeadElectronics() {
        HandWound cab = cab();
        cab.in.masterOn = true;
        cab.handle(TestUnits.EMERGENCY).run(0.1);
        assertThat(cab.emergency()).isTrue();
    }

    @Test
    void aDeadControllerInATrailingCabDoesNothing() {
        HandWound cab = cab();
        cab.in.speedMetresPerSecond = 20;
        cab.run(1);
        assertThat(cab.out.valve()).isEqualTo(CabValve.LAP);
    }

    // --- handle sensors ---

    @Test
    void sensorsThatDisagreeForTheirTimeAreAFaultAndTheTrainIsBraked() {
        HandWound cab = cab(SimulationFigure.SENSOR_DIFFERENCE, 8).supplied();
        assertThat(cab.on(UnitWire.FAULT)).isTrue();
        cab.in.masterOn = true;
        cab.run(0.1);
        assertThat(cab.dumps()).isTrue();
        cab.in.brakePipePascals = 0;
        cab.in.deadmanHeld = true;
        cab.handle(TestUnits.EMERGENCY).run(1);
        cab.handle(TestUnits.RELEASE).run(1);
        assertThat(cab.dumps()).as("nothing but a start clears it").isTrue();
    }

    @Test
    void aDifferenceWithinTheFigureIsNoFault() {
        HandWound cab = cab(SimulationFigure.SENSOR_DIFFERENCE, 3.5).ready();
        assertThat(cab.on(UnitWire.FAULT)).isFalse();
        assertThat(cab.feeds()).isTrue();
    }

    // --- vigilance ---

    private static HandWound underWay(DesignOption... stated) {
        HandWound cab = cab(stated).ready();
        cab.in.speedMetresPerSecond = 10;
        return cab;
    }

    private static void press(HandWound cab) {
        cab.in.acknowledgementPressed = true;
        cab.run(0.05);
        cab.in.acknowledgementPressed = false;
        cab.run(0.05);
    }

    @Test
    void withoutAnActLightSounderAndDumpFollowEachOther() {
        HandWound cab = underWay();
        assertThat(cab.until(60, () -> cab.on(UnitWire.WARNING_LIGHT))).isCloseTo(30, within(0.02));
        assertThat(cab.until(60, () -> cab.on(UnitWire.WARNING_SOUNDER))).isCloseTo(2.5, within(0.02));
        assertThat(cab.on(UnitWire.WARNING_LIGHT)).isTrue();
        assertThat(cab.until(60, cab::dumps)).isCloseTo(2.5, within(0.02));
        assertThat(cab.feeds()).isFalse();
    }

    @Test
    void anAcknowledgementClearsTheWarningsAndTheCycleRunsFromThePress() {
        for (double at : new double[] {10, 30.5, 31, 33, 34.9}) {
            HandWound cab = underWay().run(at);
            cab.in.acknowledgementPressed = true;
            assertThat(cab.until(1, () -> !cab.on(UnitWire.WARNING_LIGHT) && !cab.on(UnitWire.WARNING_SOUNDER)))
                    .isLessThanOrEqualTo(SEEN);
            double light = cab.until(60, () -> cab.on(UnitWire.WARNING_LIGHT));
            assertThat(light).as("pressed at %s s", at).isCloseTo(30, within(0.02));
        }
    }

    @Test
    void aButtonHeldDownIsNoAttention() {
        HandWound cab = underWay().run(15);
        cab.in.acknowledgementPressed = true;
        assertThat(cab.until(60, cab::dumps)).isCloseTo(35, within(0.03));
    }

    @Test
    void anAcknowledgementStuckAtTheStartIsAFaultAndNoPress() {
        HandWound cab = cab();
        cab.in.acknowledgementPressed = true;
        cab.ready();
        assertThat(cab.on(UnitWire.FAULT)).isTrue();
        cab.in.speedMetresPerSecond = 10;
        assertThat(cab.until(60, cab::dumps)).isCloseTo(35, within(0.03));
    }

    @Test
    void aDumpOfVigilanceIsResetOnlyWithTheHandleAtFullServiceAndAPressThere() {
        HandWound cab = underWay().run(36);
        cab.in.brakePipePascals = 0;
        press(cab);
        assertThat(cab.dumps()).as("pressed in release").isTrue();
        cab.handle(TestUnits.FULL_SERVICE).run(0.1);
        assertThat(cab.dumps()).as("not pressed there").isTrue();
        press(cab);
        assertThat(cab.dumps()).isFalse();
        cab.handle(TestUnits.RELEASE).run(0.1);
        assertThat(cab.feeds()).isTrue();
        assertThat(cab.until(60, () -> cab.on(UnitWire.WARNING_LIGHT)))
                .as("a whole new cycle from the handle's last move")
                .isCloseTo(29.9, within(0.05));
    }

    @Test
    void itRestsAtStandstillAndWhileBrakedAsTheDesignSays() {
        HandWound standing = cab().ready();
        assertThat(standing.until(100, () -> standing.on(UnitWire.WARNING_LIGHT)))
                .isNaN();
        HandWound runs = cab(DesignOption.VIGILANCE_RUNS_AT_STANDSTILL).ready();
        assertThat(runs.until(100, () -> runs.on(UnitWire.WARNING_LIGHT))).isLessThan(30.1);

        HandWound braked = underWay();
        braked.in.cylinderPascals = 37.1 * PSI;
        assertThat(braked.until(100, () -> braked.on(UnitWire.WARNING_LIGHT))).isNaN();
        braked.in.cylinderPascals = 36.9 * PSI;
        assertThat(braked.until(100, () -> braked.on(UnitWire.WARNING_LIGHT))).isCloseTo(30, within(0.02));
        HandWound anyhow = underWay(DesignOption.VIGILANCE_RUNS_WHILE_BRAKED);
        anyhow.in.cylinderPascals = 50 * PSI;
        assertThat(anyhow.until(100, () -> anyhow.on(UnitWire.WARNING_LIGHT))).isCloseTo(30, within(0.02));
    }

    @Test
    void itDoesNotWatchADriverWithoutADirectionOrWithoutAnOpenCab() {
        HandWound coasting = underWay();
        coasting.in.reverserForward = false;
        assertThat(coasting.until(100, () -> coasting.on(UnitWire.WARNING_LIGHT)))
                .isNaN();
        HandWound closed = underWay();
        closed.in.masterOn = false;
        assertThat(closed.until(100, () -> closed.on(UnitWire.WARNING_LIGHT))).isNaN();
    }

    @Test
    void switchingTheCabOffAndOnGivesNoFreshCycle() {
        HandWound cab = underWay().run(27);
        cab.in.masterOn = false;
        cab.run(1);
        cab.in.masterOn = true;
        cab.run(0.05);
        assertThat(cab.until(60, () -> cab.on(UnitWire.WARNING_LIGHT) || cab.dumps()))
                .isLessThan(3.1);
    }

    @Test
    void aTremblingHandIsNoAttentionButAMoveIs() {
        HandWound cab = underWay();
        boolean lit = false;
        for (int i = 0; i < 310 && !lit; i++) {
            cab.handle(i % 2 * 1.0).run(0.1);
            lit = cab.on(UnitWire.WARNING_LIGHT);
        }
        assertThat(lit).isTrue();
        cab.handle(TestUnits.ep(0.2)).run(0.02);
        assertThat(cab.on(UnitWire.WARNING_LIGHT)).isFalse();
    }

    // --- supplies and inputs ---

    @Test
    void aFailedEpSupplyIsTold() {
        HandWound cab = cab().supplied();
        assertThat(cab.on(UnitWire.EP_SUPPLY_ALARM)).isFalse();
        cab.in.epSupplyVolts = 0.7 * UN;
        assertThat(cab.until(1, () -> !cab.on(UnitWire.EP_SUPPLY_LAMP))).isCloseTo(0.1, within(SEEN));
        assertThat(cab.until(1, () -> cab.on(UnitWire.EP_SUPPLY_ALARM))).isCloseTo(0.2, within(SEEN));
        cab.in.epSupplyVolts = UN;
        assertThat(cab.until(1, () -> !cab.on(UnitWire.EP_SUPPLY_ALARM))).isCloseTo(0.3, within(SEEN));
    }

    @Test
    void pulsesShorterThanAScanAreNotSeen() {
        HandWound cab = cab().driving(1);
        for (int i = 0; i < 2000; i++) {
            cab.in.deadmanHeld = i % 7 >= 4;
            cab.in.acknowledgementPressed = i % 7 < 4;
            cab.step();
            assertThat(cab.dumps()).isFalse();
            cab.in.deadmanHeld = true;
            cab.in.acknowledgementPressed = false;
            cab.run(0.011);
        }
        assertThat(cab.on(UnitWire.TRACTION)).isTrue();
    }

    @Test
    void equalSeedsGiveEqualOutputs() {
        HandWound one = underWay().handle(TestUnits.automatic(0.5)).run(1);
        HandWound other = underWay().handle(TestUnits.automatic(0.5)).run(1);
        assertThat(one.out.valve()).isEqualTo(other.out.valve());
    }
}
