package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class DriverActsTest {
    private final UnitInputs in = new UnitInputs();

    private DriverActs acts(boolean onceInARow) {
        DriverActs acts = new DriverActs(3, onceInARow);
        assertThat(acts.step(in)).isFalse();
        return acts;
    }

    @Test
    void aPressCountsOnceHoweverLongItLasts() {
        DriverActs acts = acts(false);
        in.acknowledgementPressed = true;
        assertThat(acts.step(in)).isTrue();
        for (int i = 0; i < 100_000; i++) {
            assertThat(acts.step(in)).isFalse();
        }
        in.acknowledgementPressed = false;
        assertThat(acts.step(in)).isFalse();
        in.acknowledgementPressed = true;
        assertThat(acts.step(in)).isTrue();
    }

    @Test
    void anAcknowledgementFoundPressedIsNoPressButAFaultUntilLetGo() {
        in.acknowledgementPressed = true;
        DriverActs acts = acts(false);
        assertThat(acts.step(in)).isFalse();
        assertThat(acts.stuckSinceStart()).isTrue();
        in.acknowledgementPressed = false;
        assertThat(acts.step(in)).isFalse();
        assertThat(acts.stuckSinceStart()).isFalse();
        in.acknowledgementPressed = true;
        assertThat(acts.step(in)).isTrue();
        assertThat(acts.stuckSinceStart()).isFalse();
    }

    @Test
    void theHandleCountsWhenItHasMovedByItsAngleAndThenFromThere() {
        DriverActs acts = acts(false);
        in.handleDegrees = 2.9;
        assertThat(acts.step(in)).isFalse();
        in.handleDegrees = 3;
        assertThat(acts.step(in)).isTrue();
        in.handleDegrees = 0.1;
        assertThat(acts.step(in)).isFalse();
        in.handleDegrees = 0;
        assertThat(acts.step(in)).isTrue();
    }

    @Test
    void tremorAndNoiseOfTheHandleNeverCount() {
        DriverActs acts = acts(false);
        SplittableRandom random = new SplittableRandom(3);
        for (int i = 0; i < 1_000_000; i++) {
            in.handleDegrees = 1.4 * (2 * random.nextDouble() - 1);
            assertThat(acts.step(in)).isFalse();
        }
    }

    @Test
    void anotherNotchCounts() {
        DriverActs acts = acts(false);
        in.powerNotch = 1;
        assertThat(acts.step(in)).isTrue();
        assertThat(acts.step(in)).isFalse();
        in.powerNotch = 0;
        assertThat(acts.step(in)).isTrue();
    }

    /**
     * Every pair of acts, in the design where the handles count once in a row each and in the one where they do not.
     */
    @Test
    void theSameHandleTwiceInARowCountsAsTheDesignSays() {
        for (boolean once : new boolean[] {false, true}) {
            for (int first = 0; first < 3; first++) {
                for (int second = 0; second < 3; second++) {
                    DriverActs acts = acts(once);
                    assertThat(act(acts, first)).isTrue();
                    boolean refused = once && first == second && first != 0;
                    assertThat(act(acts, second))
                            .as("%s: %d, %d", once, first, second)
                            .isEqualTo(!refused);
                    if (refused) {
                        assertThat(act(acts, 0))
                                .as("the acknowledgement always counts")
                                .isTrue();
                        assertThat(act(acts, first)).as("and frees the handle").isTrue();
                    }
                    in.acknowledgementPressed = false;
                }
            }
        }
    }

    private boolean act(DriverActs acts, int control) {
        switch (control) {
            case 0 -> {
                in.acknowledgementPressed = false;
                acts.step(in);
                in.acknowledgementPressed = true;
            }
            case 1 -> in.handleDegrees += 5;
            default -> in.powerNotch++;
        }
        return acts.step(in);
    }
}
