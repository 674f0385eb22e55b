package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.plant.CabValve;
import org.junit.jupiter.api.Test;

class PipeControlTest {
    private static final double PSI = TestUnits.PSI;
    private static final CabValve FEEDING = CabValve.feeding(70 * PSI);

    private final UnitInputs in = new UnitInputs();

    private PipeControl control(DesignOption... stated) {
        in.masterOn = true;
        return new PipeControl(TestUnits.design(stated), new UnitFigures(TestUnits.figures(ControllerKind.CLASSIC)));
    }

    private CabValve at(PipeControl control, HandleZone zone, double psi) {
        in.brakePipePascals = psi * PSI;
        return control.valve(zone, 0.5, false, false, in);
    }

    @Test
    void onlyReleaseChargesAnEmptyPipe() {
        for (HandleZone zone : HandleZone.values()) {
            for (DesignOption option : new DesignOption[] {DesignOption.PIPE_MAINTAINED, DesignOption.PIPE_CLOSED_IN}) {
                boolean feeds = at(control(option), zone, 0).feedShare() > 0;
                assertThat(feeds).as("%s, %s", option, zone).isEqualTo(zone == HandleZone.RELEASE);
            }
        }
    }

    @Test
    void aPipeThatIsChargedIsMaintainedUpToFullEpWhereTheDesignSaysSo() {
        PipeControl maintained = control();
        at(maintained, HandleZone.RELEASE, 70);
        assertThat(at(maintained, HandleZone.EP_APPLICATION, 68)).isEqualTo(FEEDING);

        PipeControl closedIn = control(DesignOption.PIPE_CLOSED_IN);
        at(closedIn, HandleZone.RELEASE, 70);
        assertThat(at(closedIn, HandleZone.EP_APPLICATION, 68)).isEqualTo(CabValve.LAP);
    }

    @Test
    void aPipeOnceReducedIsNotMaintainedUntilItHasBeenCharged() {
        for (HandleZone beyond : new HandleZone[] {HandleZone.LAP, HandleZone.SERVICE, HandleZone.EMERGENCY}) {
            PipeControl control = control();
            at(control, HandleZone.RELEASE, 70);
            at(control, beyond, 68);
            assertThat(at(control, HandleZone.EP_APPLICATION, 68))
                    .as("%s", beyond)
                    .isEqualTo(CabValve.LAP);
        }
        PipeControl lost = control();
        at(lost, HandleZone.RELEASE, 70);
        at(lost, HandleZone.EP_APPLICATION, 54);
        assertThat(at(lost, HandleZone.EP_APPLICATION, 70)).isEqualTo(CabValve.LAP);
    }

    @Test
    void thePipeFallsEvenlyWithTheHandleAndIsNeverFedThere() {
        PipeControl control = control();
        for (double share = 0; share <= 1; share += 0.125) {
            CabValve valve = control.valve(HandleZone.SERVICE, share, false, false, in);
            assertThat(valve.feedShare()).isZero();
            assertThat(valve.servicePascals() / PSI).isCloseTo(70 - 20 * share, within(1e-9));
        }
    }

    @Test
    void anUnchangedHandleGivesTheSameObject() {
        PipeControl control = control();
        CabValve first = control.valve(HandleZone.SERVICE, 0.4, false, false, in);
        assertThat(control.valve(HandleZone.SERVICE, 0.4, false, false, in)).isSameAs(first);
    }

    @Test
    void aClosedCabNeitherFeedsNorLetsDown() {
        PipeControl control = control();
        in.masterOn = false;
        for (HandleZone zone : HandleZone.values()) {
            assertThat(at(control, zone, 70)).as("%s", zone).isEqualTo(CabValve.LAP);
        }
    }

    @Test
    void everyVentCutsTheFeedInEveryZone() {
        for (HandleZone zone : HandleZone.values()) {
            for (int vents = 1; vents < 4; vents++) {
                boolean emergency = (vents & 1) != 0;
                boolean dump = (vents & 2) != 0;
                CabValve valve = control().valve(zone, 0.5, emergency, dump, in);
                assertThat(valve.feedShare()).isZero();
                assertThat(valve.emergencyShare()).isEqualTo(emergency ? 1 : 0);
                assertThat(valve.dumpShare()).isEqualTo(dump ? 1 : 0);
            }
        }
    }
}
