package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class DeadmanTest {
    private static final double STEP = 0.001;
    private static final double SECONDS = 0.080;

    private final Deadman deadman = new Deadman(SECONDS, false);

    private boolean run(int milliseconds, boolean armed, boolean held) {
        boolean expired = false;
        for (int i = 0; i < milliseconds; i++) {
            deadman.step(STEP, armed, held);
            expired |= deadman.expired();
        }
        return expired;
    }

    @Test
    void itExpiresAfterItsTimeAndNotAStepEarlier() {
        assertThat(run(79, true, false)).isFalse();
        assertThat(run(1, true, false)).isTrue();
    }

    @Test
    void notArmedItNeverExpiresAndRemembersNoAbsence() {
        assertThat(run(1000, false, false)).isFalse();
        assertThat(run(79, true, false)).isFalse();
    }

    @Test
    void briefLiftsOfFourFifthsOfTheTimeOnceASecondAreOverlooked() {
        for (int i = 0; i < 100; i++) {
            assertThat(run(64, true, false)).isFalse();
            assertThat(run(936, true, true)).isFalse();
        }
    }

    @Test
    void aContactThatChattersReleasedForMoreThanHalfTheTimeExpires() {
        boolean expired = false;
        for (int i = 0; i < 100 && !expired; i++) {
            expired = run(12, true, false) | run(8, true, true);
        }
        assertThat(expired).isTrue();
    }

    @Test
    void heldItNeverExpires() {
        assertThat(run(200, true, false)).isTrue();
        assertThat(run(1, true, true)).isFalse();
        assertThat(run(10_000, true, true)).isFalse();
    }

    @Test
    void aDelayedOneWarnsFromTheReleaseUntilItExpires() {
        Deadman delayed = new Deadman(3, true);
        for (int ms = 1; ms < 3000; ms++) {
            delayed.step(STEP, true, false);
            assertThat(delayed.warning()).as("%d ms", ms).isTrue();
            assertThat(delayed.expired()).as("%d ms", ms).isFalse();
        }
        delayed.step(STEP, true, false);
        assertThat(delayed.warning()).isFalse();
        assertThat(delayed.expired()).isTrue();
        delayed.step(STEP, true, true);
        assertThat(delayed.warning()).isFalse();
        assertThat(delayed.expired()).isFalse();
    }

    @Test
    void anInstantOneNeverWarns() {
        for (int ms = 0; ms < 200; ms++) {
            deadman.step(STEP, true, false);
            assertThat(deadman.warning()).isFalse();
        }
    }
}
