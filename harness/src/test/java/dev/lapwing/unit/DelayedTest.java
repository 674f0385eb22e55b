package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class DelayedTest {

    @Test
    void itFollowsAfterItsTimeAndNotAStepEarlier() {
        for (int ms = 0; ms <= 100; ms += 7) {
            Delayed contact = new Delayed(ms / 1000.0, 0.020);
            for (int t = 0; t < ms; t++) {
                assertThat(contact.follow(1 + t / 1000.0, true))
                        .as("%d ms of %d", t, ms)
                        .isFalse();
            }
            assertThat(contact.follow(1 + ms / 1000.0, true)).as("%d ms", ms).isTrue();
            assertThat(contact.follow(2, false)).isTrue();
            assertThat(contact.follow(2.019, false)).isTrue();
            assertThat(contact.follow(2.020, false)).isFalse();
        }
    }

    @Test
    void aCauseThatDoesNotLastIsOverlooked() {
        Delayed contact = new Delayed(0.010);
        for (int t = 0; t < 1000; t++) {
            assertThat(contact.follow(t / 1000.0, t % 10 != 0)).isFalse();
        }
    }

    @Test
    void whatNeverGoesOffStaysOn() {
        Delayed latch = new Delayed(0, Double.POSITIVE_INFINITY);
        assertThat(latch.follow(0, true)).isTrue();
        assertThat(latch.follow(1e9, false)).isTrue();
        assertThat(latch.follow(2e9, false)).isTrue();
    }
}
