package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Whatever a driver and the supplies do, in whatever design, some things never happen. */
class WildDriverTest {
    private static final double PSI = TestUnits.PSI;
    /** Time to traction off, beside two scans and a contact. */
    private static final double GRACE_SECONDS = 0.060 + 0.015 + 0.003;

    @ParameterizedTest
    @EnumSource
    void whatMustNeverHappenNeverDoes(ControllerKind kind) {
        for (long seed = 1; seed <= 40; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Watch watch = new Watch(new HandWound(TestUnits.unit(kind, design(random))), kind + ", seed " + seed);
            watch.cab.ready();
            for (int i = 0; i < 400; i++) {
                act(random, watch.cab);
                for (int steps = random.nextInt(200); steps >= 0; steps--) {
                    watch.step();
                }
            }
        }
    }

    private static DesignOption[] design(SplittableRandom random) {
        return Arrays.stream(DesignFlag.values())
                .map(flag -> flag.options().get(random.nextInt(flag.options().size())))
                // How long a delayed deadman leaves traction on is its own figure.
                .map(option -> option == DesignOption.DEADMAN_DELAYED ? DesignOption.DEADMAN_INSTANT : option)
                .toArray(DesignOption[]::new);
    }

    private static void act(SplittableRandom random, HandWound cab) {
        double[] angles = {0, 0, 0, TestUnits.ep(0.5), 40, 55, TestUnits.automatic(0.5), 85, 105};
        UnitInputs in = cab.in;
        switch (random.nextInt(12)) {
            case 0, 1, 2 -> in.handleDegrees = angles[random.nextInt(angles.length)];
            case 3 -> in.deadmanHeld = random.nextInt(4) > 0;
            case 4 -> in.acknowledgementPressed = random.nextBoolean();
            case 5 -> in.masterOn = random.nextInt(5) > 0;
            case 6 -> in.reverserForward = random.nextInt(4) > 0;
            case 7 -> in.reverserReverse = random.nextInt(8) == 0;
            case 8 -> in.powerNotch = random.nextInt(5);
            case 9 -> in.speedMetresPerSecond = random.nextBoolean() ? 0 : 10;
            case 10 -> in.brakePipePascals = (random.nextInt(4) > 0 ? 70 : random.nextInt(70)) * PSI;
            default -> in.controlSupplyVolts = random.nextInt(10) > 0 ? TestUnits.UN : 0;
        }
        in.cylinderPascals = random.nextInt(50) * PSI;
    }

    /** A cab with what must never happen watched at every step. */
    private static final class Watch {
        final HandWound cab;
        private final String name;
        private double braked = Double.POSITIVE_INFINITY;

        Watch(HandWound cab, String name) {
            this.cab = cab;
            this.name = name;
        }

        void step() {
            cab.step();
            never(cab.on(UnitWire.APPLICATION) && !cab.on(UnitWire.HOLDING), "application without holding");
            boolean vented = cab.dumps() || cab.emergency();
            never(cab.feeds() && vented, "fed while vented");
            never(cab.feeds() && cab.out.valve().servicePascals() > 0, "fed while let down");
            boolean forbidden = vented || !cab.in.deadmanHeld || !cab.in.masterOn || cab.in.handleDegrees > 45;
            braked = forbidden ? Math.min(braked, cab.seconds()) : Double.POSITIVE_INFINITY;
            never(cab.on(UnitWire.TRACTION) && cab.seconds() - braked > GRACE_SECONDS, "traction against the brake");
            for (int k = 1; k <= 4; k++) {
                UnitWire below = k == 1 ? UnitWire.TRACTION : UnitWire.notch(k - 1);
                never(cab.on(UnitWire.notch(k)) && !cab.on(below), "a notch without the ones below");
            }
        }

        private void never(boolean happened, String what) {
            assertThat(happened)
                    .as("%s, %s, at %s s", what, name, cab.seconds())
                    .isFalse();
        }
    }
}
