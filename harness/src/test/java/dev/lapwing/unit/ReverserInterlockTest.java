package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ReverserInterlockTest {
    private static final double FREE = 60 * TestUnits.PSI;

    private final UnitInputs in = new UnitInputs();

    /** Every combination of what frees the lock. */
    @Test
    void itIsFreeOnlyWithEverythingThatFreesIt() {
        for (int bits = 0; bits < 16; bits++) {
            boolean powered = (bits & 1) != 0;
            in.masterOn = (bits & 2) != 0;
            in.deadmanHeld = (bits & 4) != 0;
            in.brakePipePascals = (bits & 8) != 0 ? FREE + 1 : FREE;
            ReverserInterlock interlock = new ReverserInterlock(FREE);
            interlock.step(powered, in);
            assertThat(interlock.unlocked()).as("%s", bits).isEqualTo(bits == 15);
        }
    }

    /** Every move of the reverser with the lock free or not, from every state that it can have been in. */
    @Test
    void aDirectionCountsOnlyIfItWasMovedToWithTheLockFree() {
        for (int bits = 0; bits < 256; bits++) {
            boolean freeBefore = (bits & 1) != 0;
            boolean freeNow = (bits & 2) != 0;
            int before = bits >> 2 & 3;
            int now = bits >> 4 & 3;
            boolean freeLater = (bits & 64) != 0;
            ReverserInterlock interlock = new ReverserInterlock(FREE);
            move(interlock, before, freeBefore);
            boolean acceptedBefore = direction(before) && freeBefore;
            assertThat(interlock.selected()).isEqualTo(acceptedBefore);

            move(interlock, now, freeNow);
            boolean moved = stands(now) != stands(before);
            boolean accepted = direction(now) && (moved ? freeNow : acceptedBefore);
            assertThat(interlock.selected()).as("%s", bits).isEqualTo(accepted);

            move(interlock, now, freeLater);
            assertThat(interlock.selected())
                    .as("the lock alone changes nothing, %s", bits)
                    .isEqualTo(accepted);
        }
    }

    private void move(ReverserInterlock interlock, int directions, boolean free) {
        in.masterOn = free;
        in.deadmanHeld = free;
        in.brakePipePascals = FREE + 1;
        in.reverserForward = (directions & 1) != 0;
        in.reverserReverse = (directions & 2) != 0;
        interlock.step(true, in);
    }

    /** Both at once is no direction. */
    private static boolean direction(int directions) {
        return directions == 1 || directions == 2;
    }

    private static int stands(int directions) {
        return direction(directions) ? directions : 0;
    }
}
