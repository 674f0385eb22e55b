package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Nothing is armed but by somebody who means it. */
class ArmingTest {
    private static final BenchFile BENCH =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
    private static final ArmingFacts.Told GOOD = new ArmingFacts.Told(List.of("All is in date."), List.of());
    private static final ArmingFacts.Told DEAD =
            new ArmingFacts.Told(List.of("Readings before arming:"), List.of("brake-pipe@1 reads -3.3 psi: dead"));

    private final StringWriter said = new StringWriter();

    private Optional<Arming.Armed> typed(String lines, ArmingFacts.Told facts) {
        return new Arming(new PrintWriter(said), new PrintWriter(said))
                .by(Optional.empty(), BENCH, facts, new BufferedReader(new StringReader(lines)));
    }

    private Optional<Arming.Armed> named(String name, ArmingFacts.Told facts) {
        return new Arming(new PrintWriter(said), new PrintWriter(said))
                .by(Optional.of(name), BENCH, facts, new BufferedReader(new StringReader("")));
    }

    @Test
    void aNameAndTheWordOnALineOfItsOwnArm() {
        Arming.Armed armed = typed("J. Miller\narm\n", GOOD).orElseThrow();

        assertThat(armed.name()).isEqualTo("J. Miller");
        assertThat(armed.remarks())
                .anyMatch(line -> line.startsWith("armed by J. Miller, typed after the checklist: People are clear"))
                .contains("before arming: All is in date.");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "\n\n",
                "do not arm\n",
                "no, don't arm\n",
                "J. Miller\n",
                "J. Miller\n\n",
                "J. Miller\ndo not arm\n",
                "J. Miller\nARM it\n",
                "J. Miller\nyes\n",
                "arm\narm\n",
                "J. Miller arm\n",
                "\narm\n"
            })
    void anythingElseLeavesItSafe(String lines) {
        assertThat(typed(lines, GOOD)).isEmpty();
        assertThat(said.toString()).contains("lapwing: not armed, and nothing was run");
    }

    @Test
    void aPersonMayArmABenchWithADeadTransducer() {
        assertThat(typed("J. Miller\narm\n", DEAD)).isPresent();
    }

    @Test
    void aBenchThatNobodyWatchesIsNotArmedWithOne() {
        assertThat(named("T. Night", GOOD)).isPresent();
        assertThat(named("T. Night", DEAD)).isEmpty();
        assertThat(said.toString()).contains("brake-pipe@1 reads -3.3 psi: dead");
    }

    @Test
    void nobodyAnswersForNothing() {
        assertThat(named("  ", GOOD)).isEmpty();
        assertThat(said.toString()).contains("'--armed-by' names nobody").doesNotContain("Armed by");
    }
}
