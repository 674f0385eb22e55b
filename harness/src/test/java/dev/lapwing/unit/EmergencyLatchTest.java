package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class EmergencyLatchTest {

    /** Every state, open or shut, with every event, for both designs; no delay, so that a step is an event. */
    @Test
    void everyStateWithEveryEventIsTheTable() {
        for (int bits = 0; bits < 16; bits++) {
            boolean latched = (bits & 1) != 0;
            boolean open = (bits & 2) != 0;
            boolean handleThere = (bits & 4) != 0;
            boolean standing = (bits & 8) != 0;
            EmergencyLatch latch = new EmergencyLatch(latched, 0);
            latch.step(0, open, false);
            assertThat(latch.isOpen()).isEqualTo(open);

            latch.step(0.001, handleThere, standing);
            boolean stays = open && latched && !standing;
            assertThat(latch.isOpen())
                    .as("latched %s, open %s, handle there %s, standing %s", latched, open, handleThere, standing)
                    .isEqualTo(handleThere || stays);
        }
    }

    @Test
    void thePortOpensAfterItsTime() {
        EmergencyLatch latch = new EmergencyLatch(true, 0.030);
        for (int ms = 0; ms < 30; ms++) {
            latch.step(ms / 1000.0, true, false);
            assertThat(latch.isOpen()).as("%d ms", ms).isFalse();
        }
        latch.step(0.030, true, false);
        assertThat(latch.isOpen()).isTrue();
    }

    @Test
    void aHandleSweptPastInLessOpensNothing() {
        EmergencyLatch latch = new EmergencyLatch(true, 0.030);
        for (int ms = 0; ms < 29; ms++) {
            latch.step(ms / 1000.0, true, false);
        }
        latch.step(0.029, false, false);
        assertThat(latch.isOpen()).isFalse();
    }
}
