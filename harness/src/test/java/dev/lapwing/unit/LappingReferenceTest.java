package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Both ways of self-lapping against a closed form. Source: closed form of a three-state relay with dead time on an
 * integrator, derived here by hand and in no published table known to us; nothing of the harness is used to get it.
 *
 * <p>A volume filled and exhausted at a constant rate r through a valve that follows its command T later passes the
 * switching point by r·T. From rest outside the half band h it therefore ends at −h + r·T from the target, hunts where
 * that lies outside the other half band, and is quiet where it does not; foreseen by a lead L, it ends at r·(T − L).
 */
class LappingReferenceTest {
    private static final double STEP = 0.001;
    private static final double RATE = 20;
    private static final double DEAD_TIME = 0.060;
    private static final double TARGET = 30;

    /** An integrator with dead time; units do not matter. */
    private static final class Cylinder {
        private final EpCommand[] pending = new EpCommand[(int) Math.round(DEAD_TIME / STEP)];
        private final Lapping lapping;
        private double pressure;
        private double seconds;
        private EpCommand last = EpCommand.HOLD;
        private int changes;

        Cylinder(Lapping lapping, double pressure) {
            this.lapping = lapping;
            this.pressure = pressure;
            Arrays.fill(pending, EpCommand.HOLD);
        }

        Cylinder run(double duration) {
            long steps = Math.round(duration / STEP);
            for (long i = 0; i < steps; i++) {
                seconds += STEP;
                EpCommand now = lapping.follow(seconds, TARGET, pressure);
                changes += now == last ? 0 : 1;
                last = now;
                System.arraycopy(pending, 1, pending, 0, pending.length - 1);
                pending[pending.length - 1] = now;
                pressure +=
                        STEP * RATE * (pending[0] == EpCommand.APPLY ? 1 : pending[0] == EpCommand.RELEASE ? -1 : 0);
            }
            return this;
        }
    }

    // One step of delay in the loop beside the dead time, at most one more in the crossing.
    private static final double ROUNDING = 2 * RATE * STEP;

    @ParameterizedTest
    @ValueSource(doubles = {0.7, 0.8, 1.0, 1.5, 2.0})
    void aRelayEndsAtTheDeadTimesGainBeyondItsSwitchingPoint(double band) {
        double gain = RATE * DEAD_TIME;
        Cylinder up = new Cylinder(new RelayLapping(band, band), 10).run(5);
        assertThat(up.pressure).isCloseTo(TARGET - band + gain, within(ROUNDING));
        Cylinder down = new Cylinder(new RelayLapping(band, band), 50).run(5);
        assertThat(down.pressure).isCloseTo(TARGET + band - gain, within(ROUNDING));
        int settled = up.changes;
        assertThat(up.run(60).changes).as("quiet: %s > %s", 2 * band, gain).isEqualTo(settled);
    }

    @Test
    void aRelayWhoseBandIsNarrowerThanTheGainHunts() {
        double band = 0.9 * RATE * DEAD_TIME / 2;
        Cylinder cylinder = new Cylinder(new RelayLapping(band, band), 10).run(5);
        int before = cylinder.changes;
        assertThat(cylinder.run(60).changes - before).isGreaterThan(100);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.0, 0.020, 0.040, 0.060})
    void foreseenItEndsNearerTheTargetByWhatWasForeseen(double lead) {
        double left = RATE * (DEAD_TIME - lead);
        Cylinder up = new Cylinder(new ForeseeingLapping(2, 2, lead), 10).run(5);
        assertThat(up.pressure).isCloseTo(TARGET + left, within(ROUNDING));
        Cylinder down = new Cylinder(new ForeseeingLapping(2, 2, lead), 50).run(5);
        assertThat(down.pressure).isCloseTo(TARGET - left, within(ROUNDING));
    }
}
