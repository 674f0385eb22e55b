package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class TractionInterlockTest {
    private final TractionInterlock traction = new TractionInterlock(4, 0);
    private int milliseconds;

    private int step(boolean cause, int notch) {
        traction.step(milliseconds++ / 1000.0, cause, notch, true);
        return traction.notch();
    }

    @Test
    void itStartsOnlyFromOff() {
        assertThat(step(false, 2)).isZero();
        assertThat(step(false, 0)).isZero();
        assertThat(step(false, 2)).isEqualTo(2);
    }

    /** Every pair of notches. */
    @Test
    void notchesGoUpAtWillAndDownOnlyThroughOff() {
        for (int from = 0; from <= 4; from++) {
            for (int to = 0; to <= 4; to++) {
                step(false, 0);
                assertThat(step(false, from)).isEqualTo(from);
                assertThat(step(false, to)).as("%d to %d", from, to).isEqualTo(to == 0 ? 0 : Math.max(from, to));
            }
        }
    }

    @Test
    void aCauseCutsAndOnlyOffWithoutACauseGivesBack() {
        step(false, 0);
        assertThat(step(false, 3)).isEqualTo(3);
        assertThat(step(true, 3)).isZero();
        assertThat(step(false, 3)).as("the cause alone gone").isZero();
        step(true, 0);
        assertThat(step(true, 1)).isZero();
        assertThat(step(false, 1)).as("off while the cause was there").isZero();
        step(false, 0);
        assertThat(step(false, 1)).isEqualTo(1);
    }

    @Test
    void aCauseCutsAfterItsTimeAndAShorterOneIsOverlooked() {
        TractionInterlock slow = new TractionInterlock(4, 0.060);
        slow.step(0, false, 0, true);
        for (int ms = 0; ms < 60; ms++) {
            slow.step(1 + ms / 1000.0, true, 1, true);
            assertThat(slow.notch()).as("%d ms", ms).isEqualTo(1);
        }
        slow.step(1.0595, false, 1, true);
        for (int ms = 0; ms <= 60; ms++) {
            slow.step(2 + ms / 1000.0, true, 1, true);
        }
        assertThat(slow.notch()).isZero();
    }

    @Test
    void withoutSupplyItIsOffAtOnceAndWaitsForOff() {
        step(false, 0);
        assertThat(step(false, 2)).isEqualTo(2);
        traction.step(milliseconds++ / 1000.0, false, 2, false);
        assertThat(traction.notch()).isZero();
        assertThat(step(false, 2)).isZero();
    }

    @Test
    void theWireOfEveryNotchUpToTheOneInForceIsOn() {
        UnitOutputs out = new UnitOutputs();
        for (int notch = 0; notch <= 4; notch++) {
            step(false, 0);
            step(false, notch);
            traction.drive(out);
            assertThat(out.isOn(UnitWire.TRACTION)).isEqualTo(notch > 0);
            for (int k = 1; k <= 4; k++) {
                assertThat(out.isOn(UnitWire.notch(k))).isEqualTo(k <= notch);
            }
        }
    }

    @Test
    void aPowerHandleWithoutNotchesIsOnOrOff() {
        TractionInterlock plain = new TractionInterlock(0, 0);
        plain.step(0, false, 0, true);
        plain.step(0.001, false, 1, true);
        assertThat(plain.notch()).isEqualTo(1);
    }

    @Test
    void thePipeSwitchHasTwoSetPoints() {
        PressureSwitch pipe = new PressureSwitch(50, 62);
        double[] pressures = {0, 55, 62, 62.1, 55, 50, 49.9, 55, 62, 63};
        boolean[] closed = {false, false, false, true, true, true, false, false, false, true};
        for (int i = 0; i < pressures.length; i++) {
            assertThat(pipe.follow(pressures[i])).as("%d: %s", i, pressures[i]).isEqualTo(closed[i]);
        }
    }
}
