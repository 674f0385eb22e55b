package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class EpContactorsTest {
    private static final double SECONDS = 0.008;

    private final UnitOutputs out = new UnitOutputs();
    private final EpContactors contactors = new EpContactors(SECONDS);
    private int milliseconds;

    private void run(int steps, EpCommand command, boolean powered) {
        for (int i = 0; i < steps; i++) {
            contactors.step(milliseconds++ / 1000.0, command, powered, out);
            assertThat(out.isOn(UnitWire.APPLICATION) && !out.isOn(UnitWire.HOLDING))
                    .as("application without holding at %d ms", milliseconds)
                    .isFalse();
        }
    }

    private void closed(boolean application, boolean holding) {
        assertThat(out.isOn(UnitWire.APPLICATION)).isEqualTo(application);
        assertThat(out.isOn(UnitWire.HOLDING)).isEqualTo(holding);
    }

    @Test
    void everyCommandEndsWithItsContacts() {
        for (EpCommand from : EpCommand.values()) {
            for (EpCommand to : EpCommand.values()) {
                run(40, from, true);
                run(40, to, true);
                closed(to == EpCommand.APPLY, to != EpCommand.RELEASE);
                run(40, to, false);
                closed(false, false);
            }
        }
    }

    @Test
    void holdingClosesFirstAndOpensLast() {
        run(9, EpCommand.APPLY, true);
        closed(false, true);
        run(9, EpCommand.APPLY, true);
        closed(true, true);
        run(9, EpCommand.RELEASE, true);
        closed(false, true);
        run(9, EpCommand.RELEASE, true);
        closed(false, false);
    }

    @Test
    void noCommandsHoweverWildCloseApplicationWithoutHolding() {
        SplittableRandom random = new SplittableRandom(7);
        EpCommand[] commands = EpCommand.values();
        for (int i = 0; i < 20_000; i++) {
            run(1 + random.nextInt(20), commands[random.nextInt(3)], random.nextInt(10) > 0);
        }
    }
}
