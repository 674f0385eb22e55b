package dev.lapwing.unit;

import static dev.lapwing.unit.ElectronicSupply.State.BOOTING;
import static dev.lapwing.unit.ElectronicSupply.State.DEAD;
import static dev.lapwing.unit.ElectronicSupply.State.READY;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ElectronicSupplyTest {
    private static final double RUN_VOLTS = 66;

    private final ElectronicSupply supply = new ElectronicSupply(RUN_VOLTS, 3, 0.020);
    private int milliseconds;
    private int starts;
    private ElectronicSupply.State state = DEAD;

    private ElectronicSupply.State run(int steps, double volts) {
        for (int i = 0; i < steps; i++) {
            ElectronicSupply.State before = state;
            state = supply.step(milliseconds++ / 1000.0, volts);
            starts += before == DEAD && state == BOOTING ? 1 : 0;
        }
        return state;
    }

    @Test
    void itIsReadyAfterItsBootTimeAndNotAStepEarlier() {
        assertThat(run(1, 0)).isEqualTo(DEAD);
        assertThat(run(3000, 110)).isEqualTo(BOOTING);
        assertThat(run(1, 110)).isEqualTo(READY);
    }

    @Test
    void anInterruptionWithinItsHoldUpTimeIsRiddenThrough() {
        run(4000, 110);
        for (int i = 0; i < 10; i++) {
            assertThat(run(20, 0)).isEqualTo(READY);
            assertThat(run(100, 110)).isEqualTo(READY);
        }
        assertThat(run(21, 0)).isEqualTo(DEAD);
    }

    @Test
    void aBootThatLosesItsSupplyBeginsAgain() {
        run(2000, 110);
        assertThat(run(30, 0)).isEqualTo(DEAD);
        assertThat(run(2990, 110)).isEqualTo(BOOTING);
        assertThat(run(20, 110)).isEqualTo(READY);
    }

    @Test
    void aSlowRampDownAndUpGivesOneEndAndOneStart() {
        run(4000, 137.5);
        starts = 0;
        int ends = 0;
        for (int tick = 0; tick < 4000; tick++) {
            // 1.25 Un to 0 and back, with a ripple of 1 V slower than what it rides through.
            double level = 137.5 * Math.abs(2000 - tick) / 2000;
            ElectronicSupply.State before = state;
            run(50, level + (tick % 2 == 0 ? 0.5 : -0.5));
            ends += before == READY && state == DEAD ? 1 : 0;
        }
        assertThat(starts).isEqualTo(1);
        assertThat(ends).isEqualTo(1);
        assertThat(state).isEqualTo(READY);
    }
}
