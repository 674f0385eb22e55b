package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ScanTest {
    private final UnitInputs in = new UnitInputs();

    private static Scan scan(double difference, double noise) {
        return new Scan(difference, noise, new SplittableRandom(5));
    }

    /** Every pattern of a switch over three scans. */
    @Test
    void aSwitchCountsOnceTwoScansFoundItTheSame() {
        for (int bits = 0; bits < 8; bits++) {
            Scan scan = scan(0, 0);
            in.deadmanHeld = false;
            scan.restart(in);
            boolean before = false;
            boolean counted = false;
            for (int i = 0; i < 3; i++) {
                boolean now = (bits >> i & 1) != 0;
                in.deadmanHeld = now;
                counted = now == before ? now : counted;
                before = now;
                assertThat(scan.of(in).deadmanHeld)
                        .as("%s, scan %d", Integer.toBinaryString(bits), i)
                        .isEqualTo(counted);
            }
        }
    }

    @Test
    void everySwitchIsSeenAsItself() {
        for (int bits = 0; bits < 32; bits++) {
            in.deadmanHeld = (bits & 1) != 0;
            in.acknowledgementPressed = (bits & 2) != 0;
            in.masterOn = (bits & 4) != 0;
            in.reverserForward = (bits & 8) != 0;
            in.reverserReverse = (bits & 16) != 0;
            in.powerNotch = bits % 5;
            Scan scan = scan(0, 0);
            scan.restart(in);
            UnitInputs seen = scan.of(in);
            assertThat(seen.deadmanHeld).isEqualTo(in.deadmanHeld);
            assertThat(seen.acknowledgementPressed).isEqualTo(in.acknowledgementPressed);
            assertThat(seen.masterOn).isEqualTo(in.masterOn);
            assertThat(seen.reverserForward).isEqualTo(in.reverserForward);
            assertThat(seen.reverserReverse).isEqualTo(in.reverserReverse);
            assertThat(seen.powerNotch).isEqualTo(in.powerNotch);
        }
    }

    @Test
    void aPassingNotchIsNotTakenForACalledOne() {
        Scan scan = scan(0, 0);
        scan.restart(in);
        in.powerNotch = 3;
        assertThat(scan.of(in).powerNotch).isZero();
        in.powerNotch = 4;
        assertThat(scan.of(in).powerNotch).isZero();
        assertThat(scan.of(in).powerNotch).isEqualTo(4);
    }

    @Test
    void theHandleIsTheMeanOfBothSensorsAndStillInTheirNoise() {
        Scan scan = scan(1, 0.1);
        scan.restart(in);
        in.handleDegrees = 20;
        double first = scan.of(in).handleDegrees;
        assertThat(first).isCloseTo(20.5, within(0.1));
        for (int i = 0; i < 100_000; i++) {
            assertThat(scan.of(in).handleDegrees).isEqualTo(first);
            assertThat(scan.disagreementDegrees()).isCloseTo(1, within(0.2));
        }
        in.handleDegrees = 21;
        assertThat(scan.of(in).handleDegrees).isCloseTo(21.5, within(0.1));
    }
}
