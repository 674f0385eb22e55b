package dev.lapwing.unit;

import static dev.lapwing.unit.Vigilance.Stage.DUMP;
import static dev.lapwing.unit.Vigilance.Stage.LIGHT;
import static dev.lapwing.unit.Vigilance.Stage.QUIET;
import static dev.lapwing.unit.Vigilance.Stage.SOUNDER;
import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class VigilanceTest {
    private static final double STEP = 0.005;

    private final Vigilance vigilance = new Vigilance(30, 2.5, 2.5);

    /** Runs without an act; what it says at the end. */
    private Vigilance.Stage run(double seconds) {
        long steps = Math.round(seconds / STEP);
        for (long i = 0; i < steps; i++) {
            vigilance.step(STEP, true, false);
        }
        return vigilance.stage();
    }

    private Vigilance.Stage act() {
        vigilance.step(STEP, true, true);
        return vigilance.stage();
    }

    @Test
    void theStagesFollowEachOtherOnTime() {
        assertThat(run(29.995)).isEqualTo(QUIET);
        assertThat(run(STEP)).isEqualTo(LIGHT);
        assertThat(run(2.495)).isEqualTo(LIGHT);
        assertThat(run(STEP)).isEqualTo(SOUNDER);
        assertThat(run(2.495)).isEqualTo(SOUNDER);
        assertThat(run(STEP)).isEqualTo(DUMP);
        assertThat(run(100)).isEqualTo(DUMP);
    }

    @Test
    void anActInAnyStageBeginsAWholeCycle() {
        for (double at : new double[] {3, 15, 27, 30.25, 31.25, 32.25, 32.75, 33.75, 34.75}) {
            run(at);
            assertThat(act()).as("%s s", at).isEqualTo(QUIET);
            assertThat(run(29.995)).as("%s s", at).isEqualTo(QUIET);
            assertThat(run(STEP)).as("%s s", at).isEqualTo(LIGHT);
            act();
        }
    }

    /** At every step around the expiry either the act counts or the dump has begun, never neither or both. */
    @Test
    void anActAtTheExpiryHasOneOfTwoOutcomes() {
        for (int steps = -10; steps <= 10; steps++) {
            Vigilance fresh = new Vigilance(30, 2.5, 2.5);
            for (long i = 0; i < 7000 + steps; i++) {
                fresh.step(STEP, true, false);
            }
            boolean dumped = fresh.stage() == DUMP;
            assertThat(dumped).isEqualTo(steps >= 0);
            fresh.step(STEP, true, true);
            assertThat(fresh.stage()).as("%d steps", steps).isEqualTo(dumped ? DUMP : QUIET);
        }
    }

    @Test
    void restingShowsNothingAndGivesNoTime() {
        run(31);
        vigilance.step(STEP, false, false);
        assertThat(vigilance.stage()).isEqualTo(QUIET);
        for (int i = 0; i < 10_000; i++) {
            vigilance.step(STEP, false, false);
        }
        assertThat(run(STEP)).isEqualTo(LIGHT);
        assertThat(run(1.495)).isEqualTo(SOUNDER);
    }

    @Test
    void manyActsBankNothing() {
        for (int i = 0; i < 200; i++) {
            act();
        }
        assertThat(run(29.995)).isEqualTo(QUIET);
        assertThat(run(STEP)).isEqualTo(LIGHT);
    }

    @Test
    void afterItsDumpWasResetAWholeCycleBegins() {
        run(36);
        vigilance.restart();
        assertThat(run(29.995)).isEqualTo(QUIET);
        assertThat(run(STEP)).isEqualTo(LIGHT);
    }
}
