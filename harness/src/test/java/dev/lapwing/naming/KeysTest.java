package dev.lapwing.naming;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Keys name signals and actuators in files and records: each names one, and is read back as that. */
class KeysTest {
    private static final List<String> PIECES = List.of(
            "brake-pipe",
            "brake-cylinder",
            "@",
            "/",
            "1",
            "0",
            "12",
            "wire",
            "supply",
            "handle-angle",
            "twin",
            "ep",
            "handle",
            "deadman",
            "reverser",
            "forward",
            "cock",
            "speed",
            "-",
            " ");

    @Test
    void everySignalIsReadBackFromItsKeyAndNoTwoShareOne() {
        Set<String> keys = new HashSet<>();
        for (Signal signal : signals()) {
            assertThat(keys.add(signal.key())).as(signal.key()).isTrue();
            assertThat(Keys.signal(signal.key())).contains(signal);
        }
    }

    @Test
    void everyActuatorIsReadBackFromItsKeyAndNoTwoShareOne() {
        Set<String> keys = new HashSet<>();
        for (Actuator actuator : actuators()) {
            assertThat(keys.add(actuator.key())).as(actuator.key()).isTrue();
            assertThat(Keys.actuator(actuator.key())).contains(actuator);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "@1",
                "brake-pipe",
                "brake-pipe@",
                "brake-pipe@0",
                "brake-pipe@01",
                "brake-pipe@100",
                "brake-pipe@-1",
                "brake-pipe@1 ",
                "brake-pip@1",
                "Brake-pipe@1",
                "wire/",
                "supply/",
                "handle-angle@1",
                "handle",
                "/twin",
                "brake-pipe@1/twins",
                "brake-pipe@1/twin/twin"
            })
    void whatIsNearASignalIsNone(String key) {
        assertThat(Keys.signal(key)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "supply/", "Handle", "handle-angle", "deadman/", "horn", "horn/front", "/", "speed/1"})
    void whatIsNearAnActuatorIsNone(String key) {
        assertThat(Keys.actuator(key)).isEmpty();
    }

    /** Two ways of writing one would let a file name it twice. */
    @Test
    void whateverIsReadIsWrittenAsItStood() {
        SplittableRandom random = new SplittableRandom(17);
        int read = 0;
        for (int i = 0; i < 20_000; i++) {
            StringBuilder text = new StringBuilder();
            for (int piece = random.nextInt(1, 6); piece > 0; piece--) {
                text.append(PIECES.get(random.nextInt(PIECES.size())));
            }
            String key = text.toString();
            Keys.signal(key).ifPresent(signal -> assertThat(signal.key()).isEqualTo(key));
            Keys.actuator(key).ifPresent(actuator -> assertThat(actuator.key()).isEqualTo(key));
            read += Keys.signal(key).isPresent() || Keys.actuator(key).isPresent() ? 1 : 0;
        }
        assertThat(read).isGreaterThan(200);
    }

    @Test
    void whatIsOnOrOffHasNoTwinAndATwinNone() {
        Signal wire = new Signal.Wire("holding");
        Signal twin = new Signal.Twin(new Signal.HandleAngle());
        assertThatThrownBy(() -> new Signal.Twin(wire)).hasMessage("wire/holding has no twin");
        assertThatThrownBy(() -> new Signal.Twin(twin)).hasMessage("handle-angle/twin has no twin");
    }

    @Test
    void aTwinMeasuresWhatItsSignalDoes() {
        for (Signal signal : signals()) {
            if (!signal.digital() && !(signal instanceof Signal.Twin)) {
                Signal twin = new Signal.Twin(signal);
                assertThat(twin.dimension()).isEqualTo(signal.dimension());
                assertThat(twin.spoken()).endsWith(" of " + signal.spoken());
            }
        }
    }

    @Test
    void namesInFilesAreEachOfOneThing() {
        oneEach(PressureKind.values(), PressureKind::text);
        oneEach(SwitchKind.values(), SwitchKind::text);
        oneEach(Ability.values(), Ability::text);
        oneEach(DesignFlag.values(), DesignFlag::text);
        for (PressureKind kind : PressureKind.values()) {
            assertThat(PressureKind.named(kind.text())).contains(kind);
        }
        for (Ability ability : Ability.values()) {
            assertThat(Ability.named(ability.text())).contains(ability);
        }
    }

    /** A question with one answer is none. */
    @ParameterizedTest
    @EnumSource
    void everyDesignFlagHasAnswersToChooseFrom(DesignFlag flag) {
        assertThat(DesignFlag.named(flag.text())).contains(flag);
        assertThat(flag.question()).startsWith("whether ");
        assertThat(flag.options()).hasSizeGreaterThan(1);
        oneEach(flag.options().toArray(DesignOption[]::new), DesignOption::text);
    }

    private static <T> void oneEach(T[] all, Function<T, String> text) {
        assertThat(Arrays.stream(all).map(text)).doesNotHaveDuplicates().allMatch(t -> t.matches("[a-z]+(-[a-z]+)*"));
    }

    private static List<Signal> signals() {
        List<Signal> all = new ArrayList<>(List.of(
                new Signal.HandleAngle(),
                new Signal.Twin(new Signal.HandleAngle()),
                new Signal.Wire("holding"),
                new Signal.Wire("warning-light"),
                new Signal.SupplyVoltage("ep"),
                new Signal.SupplyVoltage("control"),
                new Signal.Twin(new Signal.SupplyVoltage("ep"))));
        for (PressureKind kind : PressureKind.values()) {
            for (int vehicle : new int[] {1, 9, 10, 99}) {
                all.add(new Signal.Pressure(kind, vehicle));
                all.add(new Signal.Twin(new Signal.Pressure(kind, vehicle)));
            }
        }
        return all;
    }

    private static List<Actuator> actuators() {
        List<Actuator> all = new ArrayList<>(List.of(
                new Actuator.Handle(),
                new Actuator.PowerHandle(),
                new Actuator.Speed(),
                new Actuator.Supply("ep"),
                new Actuator.Supply("control")));
        for (SwitchKind kind : SwitchKind.values()) {
            all.add(new Actuator.Switch(kind, ""));
            all.add(new Actuator.Switch(kind, "brake-pipe-behind-2"));
        }
        return all;
    }
}
