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

class EpBrakeTest {
    private static final double PSI = TestUnits.PSI;

    private final UnitInputs in = new UnitInputs();

    private EpBrake brake(SimulationFigure figure, double value, DesignOption... stated) {
        Map<SimulationFigure, Double> figures = TestUnits.figures(ControllerKind.CLASSIC);
        figures.put(figure, value);
        return new EpBrake(TestUnits.design(stated), new UnitFigures(figures), new RelayLapping(PSI, PSI));
    }

    private EpBrake opened(DesignOption... stated) {
        EpBrake brake = brake(SimulationFigure.EP_START_SHARE, 0, stated);
        in.masterOn = true;
        assertThat(step(brake, HandleZone.RELEASE, 0)).isEqualTo(EpCommand.RELEASE);
        return brake;
    }

    private EpCommand step(EpBrake brake, HandleZone zone, double share) {
        return brake.step(1, 0.001, zone, share, in);
    }

    /** Every zone, master switch on or off, opened in release or not, EP kept beyond or not. */
    @Test
    void whatTheBrakeDoesInEveryZoneIsTheTable() {
        for (DesignOption beyond : DesignOption.values()) {
            if (beyond.flag() != DesignOption.EP_KEPT.flag()) {
                continue;
            }
            for (HandleZone zone : HandleZone.values()) {
                boolean held = zone.atLeast(HandleZone.LAP) && beyond == DesignOption.EP_KEPT;
                EpCommand obeying = held ? EpCommand.HOLD : EpCommand.RELEASE;
                if (zone == HandleZone.EP_APPLICATION) {
                    obeying = EpCommand.APPLY;
                }
                assertThat(step(opened(beyond), zone, 0.5))
                        .as("%s, %s", beyond, zone)
                        .isEqualTo(obeying);

                EpBrake closed = opened(beyond);
                in.masterOn = false;
                assertThat(step(closed, zone, 0.5)).as("closed, %s", zone).isEqualTo(EpCommand.RELEASE);

                in.masterOn = true;
                assertThat(step(closed, zone, 0.5))
                        .as("opened out of order, %s", zone)
                        .isEqualTo(EpCommand.RELEASE);
            }
        }
    }

    @Test
    void theDemandRisesEvenlyFromItsBeginningToTheEndOfTheArc() {
        EpBrake brake = brake(SimulationFigure.EP_START_SHARE, 0.1);
        in.masterOn = true;
        step(brake, HandleZone.RELEASE, 0);
        double[][] shareToPsi = {{0, 0}, {0.05, 0}, {0.1, 0}, {0.55, 25}, {1, 50}};
        for (double[] pair : shareToPsi) {
            step(brake, HandleZone.EP_APPLICATION, pair[0]);
            assertThat(brake.demandPascals() / PSI).isCloseTo(pair[1], within(1e-9));
        }
        step(brake, HandleZone.LAP, 1);
        assertThat(brake.demandPascals()).isZero();
    }

    @Test
    void theHalfBandsLieToBothSidesOfTheDemand() {
        EpBrake brake = opened();
        double[] psi = {23.9, 24.1, 25.9, 26.1};
        EpCommand[] expected = {EpCommand.APPLY, EpCommand.HOLD, EpCommand.HOLD, EpCommand.RELEASE};
        for (int i = 0; i < psi.length; i++) {
            in.cylinderPascals = psi[i] * PSI;
            assertThat(step(brake, HandleZone.EP_APPLICATION, 0.5))
                    .as("%s psi", psi[i])
                    .isEqualTo(expected[i]);
        }
    }

    @Test
    void aWrongFeedbackShiftsTheBand() {
        EpBrake brake = brake(SimulationFigure.FEEDBACK_ERROR, 3 * PSI);
        in.masterOn = true;
        step(brake, HandleZone.RELEASE, 0);
        in.cylinderPascals = 20.9 * PSI;
        assertThat(step(brake, HandleZone.EP_APPLICATION, 0.5)).isEqualTo(EpCommand.APPLY);
        in.cylinderPascals = 21.1 * PSI;
        assertThat(step(brake, HandleZone.EP_APPLICATION, 0.5)).isEqualTo(EpCommand.HOLD);
    }

    @ParameterizedTest
    @EnumSource(
            value = HandleZone.class,
            names = {"LAP", "SERVICE", "EMERGENCY"})
    void whatIsHeldIsNeitherMadeUpNorLetDown(HandleZone zone) {
        EpBrake brake = opened();
        in.cylinderPascals = 25 * PSI;
        step(brake, zone, 1);
        for (double psi = 0; psi <= 60; psi += 5) {
            in.cylinderPascals = psi * PSI;
            assertThat(step(brake, zone, 1)).isEqualTo(EpCommand.HOLD);
        }
    }

    @Test
    void aCreepingLapFollowsItsCreepOneWayOnly() {
        EpBrake brake = brake(SimulationFigure.LAP_DRIFT, -0.1 * PSI);
        in.masterOn = true;
        step(brake, HandleZone.RELEASE, 0);
        in.cylinderPascals = 25 * PSI;
        for (int tenths = 0; tenths < 99; tenths++) {
            assertThat(brake.step(tenths * 0.1, 0.1, HandleZone.LAP, 1, in)).isEqualTo(EpCommand.HOLD);
        }
        // 10 s at 0.1 psi/s use up the half band of 1 psi.
        brake.step(9.9, 0.1, HandleZone.LAP, 1, in);
        assertThat(brake.step(10, 0.1, HandleZone.LAP, 1, in)).isEqualTo(EpCommand.RELEASE);
        in.cylinderPascals = 0;
        assertThat(brake.step(10.1, 0.1, HandleZone.LAP, 1, in)).isEqualTo(EpCommand.HOLD);
    }
}
