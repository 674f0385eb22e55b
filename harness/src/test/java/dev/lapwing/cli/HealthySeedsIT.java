package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.files.SequenceFiles;
import dev.lapwing.finding.Verdict;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.sequence.Sequence;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Healthy units drawn inside their tolerances pass the whole overhaul, whichever specimen is drawn. */
class HealthySeedsIT {
    private static final int SPECIMENS = Integer.getInteger("lapwing.specimens", 2);
    private static final BenchFile BENCH =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();

    /** A sequence, and the specimen that it is run on. */
    private record Drawn(Sequence sequence, long seed) {}

    @ParameterizedTest
    @ValueSource(strings = {"classic", "retrofit"})
    void specimensOfAHealthyUnitPass(String unit) {
        Fixture fixture =
                FixtureFiles.load(Path.of("fixtures", unit + ".yaml")).value().orElseThrow();
        List<Sequence> sequences = Stream.of("sequences/overhaul", "sequences/type-approval")
                .flatMap(folder -> YamlFiles.in(Path.of(folder)).stream())
                .map(file -> SequenceFiles.load(file).value().orElseThrow())
                .toList();

        List<String> notPassed = LongStream.rangeClosed(1, SPECIMENS)
                .boxed()
                .flatMap(seed -> sequences.stream().map(sequence -> new Drawn(sequence, seed)))
                .toList()
                .parallelStream()
                .flatMap(drawn -> notPassed(drawn.sequence, fixture, drawn.seed).stream())
                .toList();

        assertThat(notPassed).isEmpty();
    }

    private static List<String> notPassed(Sequence sequence, Fixture fixture, long seed) {
        try {
            return SimulatedRun.of(sequence, fixture, fixture.simulation(), BENCH, seed).stream()
                    .filter(finding -> finding.verdict().compareTo(Verdict.PASS) > 0)
                    .map(finding -> "seed " + seed + ", " + sequence.name() + ": " + finding.id() + ": "
                            + finding.verdict().text() + ": " + finding.because())
                    .toList();
        } catch (BenchFailure e) {
            return List.of("seed " + seed + ", " + sequence.name() + ": " + e.getMessage());
        }
    }
}
