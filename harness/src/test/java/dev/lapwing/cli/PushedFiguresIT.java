package dev.lapwing.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.files.SequenceFiles;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.quantity.Quantity;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every figure of the simulation block that a sequence is meant to prove: pushed beyond tolerance, it is found. */
class PushedFiguresIT {
    private static final long SEED = 7;
    private static final BenchFile BENCH =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();

    /** One line of the table. */
    record Push(SimulationFigure figure, String to, String unit, String sequence, String expectation) {
        boolean proven() {
            return !unit.equals("not proven");
        }

        @Override
        public String toString() {
            return figure.path() + " pushed to " + to + " fails " + expectation + " of " + sequence;
        }
    }

    @ParameterizedTest
    @Execution(ExecutionMode.CONCURRENT)
    @MethodSource("proven")
    void aFigurePushedBeyondToleranceTurnsItsExpectationRed(Push push) throws Exception {
        Fixture healthy = FixtureFiles.load(Path.of("fixtures", push.unit() + ".yaml"))
                .value()
                .orElseThrow();
        Map<SimulationFigure, Simulation.Spread> figures =
                new HashMap<>(healthy.simulation().figures());
        figures.put(
                push.figure(), new Simulation.Spread(Quantity.parse(push.to()).base(), 0));
        Simulation pushed = new Simulation(
                healthy.simulation().controller(), figures, healthy.simulation().wireFaults());

        List<Finding> findings = SimulatedRun.of(
                SequenceFiles.load(Path.of("sequences/overhaul", push.sequence() + ".yaml"))
                        .value()
                        .orElseThrow(),
                healthy,
                pushed,
                BENCH,
                SEED);

        assertThat(findings)
                .as(() -> findings.stream()
                        .filter(finding -> finding.verdict() != Verdict.PASS && finding.verdict() != Verdict.NONE)
                        .map(finding -> finding.verdict() + " " + finding.id() + ": " + finding.because())
                        .reduce("", (a, b) -> a + "\n" + b))
                .anyMatch(finding -> finding.id().startsWith(push.expectation()) && finding.verdict() == Verdict.FAIL);
    }

    @Test
    void everyFigureIsProvenOrSaysWhyNot() throws IOException {
        assertThat(table().map(Push::figure)).containsExactlyInAnyOrder(SimulationFigure.values());
    }

    static Stream<Push> proven() throws IOException {
        return table().filter(Push::proven);
    }

    private static Stream<Push> table() throws IOException {
        try (InputStream file = PushedFiguresIT.class.getResourceAsStream("/pushed/figures.csv")) {
            return Arrays.stream(new String(file.readAllBytes(), UTF_8).split("\n"))
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> line.split("\\s*;\\s*"))
                    .map(cells -> new Push(
                            SimulationFigure.at(cells[0]).orElseThrow(() -> new AssertionError(cells[0])),
                            cells[1],
                            cells[2],
                            cells[3],
                            cells.length > 4 ? cells[4] : ""));
        }
    }
}
