package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.plant.CabValve;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

class ClassicControllerTest {
    private static final double STEP = HandWound.STEP_SECONDS;
    private static final double PSI = TestUnits.PSI;

    private static HandWound cab(DesignOption... stated) {
        return new HandWound(TestUnits.unit(ControllerKind.CLASSIC, stated));
    }

    @Test
    void itNamesTheFigureThatItLacks() {
        for (ControllerKind kind : ControllerKind.values()) {
            for (SimulationFigure figure : ControllerUnderTest.figures(kind)) {
                Map<SimulationFigure, Double> fewer = TestUnits.figures(kind);
                fewer.remove(figure);
                assertThatThrownBy(
                                () -> ControllerUnderTest.of(kind, TestUnits.wiring(), fewer, new SplittableRandom(1)))
                        .isInstanceOf(IllegalArgumentException.class)
                        .hasMessageContaining(figure.path());
            }
            assertThat(TestUnits.figures(kind).keySet()).isEqualTo(ControllerUnderTest.figures(kind));
        }
    }

    @Test
    void aDeadClosedCabDrivesNothing() {
        HandWound cab = cab().run(10);
        for (UnitWire wire : UnitWire.values()) {
            assertThat(cab.on(wire)).as("%s", wire).isFalse();
        }
        assertThat(cab.out.valve()).isEqualTo(CabValve.LAP);
    }

    @Test
    void withTheMasterSwitchOffNoPositionFeedsOrAppliesEp() {
        HandWound cab = cab().supplied();
        for (double degrees = 0; degrees <= 105; degrees += 0.5) {
            cab.handle(degrees).run(0.05);
            assertThat(cab.out.valve()).as("%s degrees", degrees).isEqualTo(CabValve.LAP);
            assertThat(cab.on(UnitWire.APPLICATION)).isFalse();
            assertThat(cab.on(UnitWire.HOLDING)).isFalse();
        }
    }

    @Test
    void openingWithTheHandleElsewhereThanInReleaseChargesNothingAndGivesNoPulse() {
        for (double degrees = 3; degrees <= 105; degrees += 1) {
            HandWound cab = cab().supplied().handle(degrees);
            cab.in.masterOn = true;
            assertThat(cab.until(5, () -> cab.feeds() || cab.on(UnitWire.APPLICATION) || cab.on(UnitWire.HOLDING)))
                    .as("%s degrees", degrees)
                    .isNaN();
        }
    }

    @Test
    void onlyReleaseFeedsOnceTheCabIsOpen() {
        HandWound cab = cab(DesignOption.PIPE_CLOSED_IN).ready();
        for (double degrees = 0; degrees <= 105; degrees += 0.5) {
            cab.handle(degrees).run(0.05);
            assertThat(cab.feeds()).as("%s degrees", degrees).isEqualTo(degrees <= 2);
        }
    }

    @Test
    void theDeadmanDumpsInBothDirectionsAndNotInOff() {
        for (int directions = 0; directions < 4; directions++) {
            HandWound cab = cab().ready();
            cab.in.reverserForward = (directions & 1) != 0;
            cab.in.reverserReverse = (directions & 2) != 0;
            cab.run(1);
            cab.in.deadmanHeld = false;
            double dumped = cab.until(5, cab::dumps);
            if (directions == 1 || directions == 2) {
                assertThat(dumped).as("%d", directions).isCloseTo(0.080, within(STEP));
                assertThat(cab.feeds()).as("the feed is cut").isFalse();
            } else {
                assertThat(dumped).as("%d", directions).isNaN();
            }
        }
    }

    @Test
    void underWayADirectionForcedInTheWrongOrderArmsTheDeadmanAllTheSame() {
        for (int directions = 1; directions < 4; directions++) {
            HandWound cab = cab().supplied();
            cab.in.masterOn = true;
            cab.in.reverserForward = (directions & 1) != 0;
            cab.in.reverserReverse = (directions & 2) != 0;
            cab.run(1);
            assertThat(cab.dumps()).as("standing, %d", directions).isFalse();
            cab.in.speedMetresPerSecond = 10;
            assertThat(cab.until(1, cab::dumps)).as("under way, %d", directions).isCloseTo(0.080, within(STEP));
        }
    }

    @Test
    void aMovingTrainKeepsDeadmanAndEmergencyLiveWithTheMasterSwitchOff() {
        HandWound deadman = cab().driving(0);
        deadman.in.masterOn = false;
        deadman.run(1);
        assertThat(deadman.dumps()).isFalse();
        deadman.in.deadmanHeld = false;
        assertThat(deadman.until(1, deadman::dumps)).isCloseTo(0.080, within(STEP));

        HandWound handle = cab().driving(0);
        handle.in.masterOn = false;
        handle.handle(TestUnits.EMERGENCY);
        assertThat(handle.until(1, handle::emergency)).isCloseTo(0.030, within(2 * STEP));
    }

    @Test
    void aDumpIsShutOffFromTheRestOfATrainThatAnotherCabDrives() {
        HandWound cab = cab().ready();
        cab.in.deadmanHeld = false;
        cab.run(1);
        assertThat(cab.dumps()).isTrue();
        cab.in.masterOn = false;
        cab.run(0.1);
        assertThat(cab.out.valve()).isEqualTo(CabValve.LAP);
        cab.in.masterOn = true;
        cab.run(0.1);
        assertThat(cab.dumps()).as("not forgotten").isTrue();
    }

    @Test
    void holdingTheDeadmanAgainStopsADumpOnlyWhereTheDesignSaysSo() {
        for (DesignOption option :
                new DesignOption[] {DesignOption.REPRESS_STOPS_DUMP, DesignOption.REPRESS_DOES_NOT_STOP_DUMP}) {
            HandWound cab = cab(option).driving(0);
            cab.in.deadmanHeld = false;
            cab.run(0.3);
            cab.in.brakePipePascals = 55 * PSI;
            cab.in.deadmanHeld = true;
            cab.run(0.1);
            assertThat(cab.dumps()).isEqualTo(option == DesignOption.REPRESS_DOES_NOT_STOP_DUMP);
            assertThat(cab.feeds()).isEqualTo(option == DesignOption.REPRESS_STOPS_DUMP);
        }
    }

    @Test
    void emergencyStaysUntilStandstillWhereTheDesignSaysSo() {
        for (DesignOption option :
                new DesignOption[] {DesignOption.EMERGENCY_LATCHED, DesignOption.EMERGENCY_NOT_LATCHED}) {
            HandWound cab = cab(option).driving(0).handle(TestUnits.EMERGENCY);
            assertThat(cab.until(1, cab::emergency)).isCloseTo(0.030, within(2 * STEP));
            cab.handle(TestUnits.RELEASE).run(5);
            assertThat(cab.emergency()).isEqualTo(option == DesignOption.EMERGENCY_LATCHED);
            cab.in.speedMetresPerSecond = 0;
            cab.run(0.1);
            assertThat(cab.emergency()).isFalse();
            assertThat(cab.feeds()).isTrue();
        }
    }

    /** What cuts traction, each alone. */
    private static Map<String, Consumer<HandWound>> causes() {
        Map<String, Consumer<HandWound>> causes = new LinkedHashMap<>();
        causes.put("EP brake", cab -> cab.handle(TestUnits.ep(0.5)));
        causes.put("lap", cab -> cab.handle(TestUnits.LAP));
        causes.put("automatic brake", cab -> cab.handle(TestUnits.automatic(0.3)));
        causes.put("emergency", cab -> cab.handle(TestUnits.EMERGENCY));
        causes.put("deadman", cab -> cab.in.deadmanHeld = false);
        causes.put("low pipe", cab -> cab.in.brakePipePascals = 49 * PSI);
        causes.put("master switch", cab -> cab.in.masterOn = false);
        causes.put("reverser", cab -> cab.in.reverserForward = false);
        return causes;
    }

    @Test
    void everyBrakeCutsTractionInItsTimeAndItDoesNotComeBackByItself() {
        causes().forEach((name, cause) -> {
            HandWound cab = cab(DesignOption.REPRESS_STOPS_DUMP, DesignOption.EMERGENCY_NOT_LATCHED)
                    .driving(2);
            assertThat(cab.on(UnitWire.TRACTION)).as(name).isTrue();
            cause.accept(cab);
            assertThat(cab.until(1, () -> !cab.on(UnitWire.TRACTION))).as(name).isCloseTo(0.060, within(2 * STEP));
            cab.run(1);

            cab.in.deadmanHeld = true;
            cab.in.brakePipePascals = 70 * PSI;
            cab.in.masterOn = true;
            cab.handle(TestUnits.RELEASE).run(0.1);
            cab.in.reverserForward = true;
            assertThat(cab.until(5, () -> cab.on(UnitWire.TRACTION))).as(name).isNaN();
            cab.in.powerNotch = 0;
            cab.run(0.1);
            cab.in.powerNotch = 1;
            assertThat(cab.until(1, () -> cab.on(UnitWire.TRACTION))).as(name).isCloseTo(STEP, within(STEP));
        });
    }

    @Test
    void aSmallEpDemandLeavesTraction() {
        HandWound cab = cab().driving(2).handle(TestUnits.ep(0.07));
        assertThat(cab.until(5, () -> !cab.on(UnitWire.TRACTION))).isNaN();
    }

    @Test
    void aReverserForcedBeforeTheCabIsReadyGivesNoTractionAndNoDump() {
        HandWound cab = cab().supplied();
        cab.in.reverserForward = true;
        cab.run(0.1);
        cab.in.masterOn = true;
        cab.run(1);
        assertThat(cab.dumps()).isFalse();
        cab.in.deadmanHeld = true;
        cab.run(0.1);
        assertThat(cab.on(UnitWire.REVERSER_UNLOCKED)).isTrue();
        cab.in.powerNotch = 1;
        assertThat(cab.until(2, () -> cab.on(UnitWire.TRACTION))).isNaN();
    }

    @Test
    void theLampFollowsTheMeasuredSupplyAfterItsTime() {
        HandWound cab = cab();
        cab.in.epSupplyVolts = 0.76 * TestUnits.UN;
        assertThat(cab.until(1, () -> cab.on(UnitWire.EP_SUPPLY_LAMP))).isCloseTo(0.100, within(2 * STEP));
        cab.in.epSupplyVolts = 0.74 * TestUnits.UN;
        assertThat(cab.until(1, () -> !cab.on(UnitWire.EP_SUPPLY_LAMP))).isCloseTo(0.100, within(2 * STEP));
    }

    @Test
    void withoutControlSupplyContactsOpenAndTheAutomaticBrakeIsWhole() {
        HandWound cab = cab().driving(2).handle(TestUnits.ep(0.5)).run(1);
        assertThat(cab.on(UnitWire.APPLICATION)).isTrue();
        cab.in.controlSupplyVolts = 0;
        cab.run(0.1);
        for (UnitWire wire :
                new UnitWire[] {UnitWire.APPLICATION, UnitWire.HOLDING, UnitWire.TRACTION, UnitWire.REVERSER_UNLOCKED
                }) {
            assertThat(cab.on(wire)).as("%s", wire).isFalse();
        }
        cab.handle(TestUnits.FULL_SERVICE).run(0.1);
        assertThat(cab.out.valve().servicePascals() / PSI).isCloseTo(50, within(1e-9));
        cab.handle(TestUnits.EMERGENCY).run(0.1);
        assertThat(cab.emergency()).isTrue();
    }
}
