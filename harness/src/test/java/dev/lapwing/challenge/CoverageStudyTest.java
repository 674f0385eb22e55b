package dev.lapwing.challenge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A short study of one specimen of the unit; the long one is in the manual, {@code harness/docs/coverage.md}. */
class CoverageStudyTest {
    private static final int RUNS = 14;

    private static CoverageStudy study;
    private static List<Answer> answers;

    @BeforeAll
    static void run() throws BenchFailure {
        study = CoverageStudy.ofUnit(
                BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow(),
                FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow(),
                1,
                7);
        answers = new ArrayList<>();
        for (int i = 0; i < RUNS; i++) {
            answers.addAll(study.run(i));
        }
    }

    /** Of all intervals together about 95 % are to hold the truth; so few runs show only a gross lie. */
    @Test
    void mostStatedIntervalsHoldTheTruth() {
        List<Answer> measured =
                answers.stream().filter(a -> a.measured().isPresent()).toList();
        long right = measured.stream().filter(Answer::right).count();
        assertThat(measured).hasSizeGreaterThan(50 * RUNS);
        assertThat(right / (double) measured.size()).isGreaterThan(0.92);
    }

    @Test
    void aRunIsTheSameWheneverItIsComputed() throws BenchFailure {
        assertThat(study.run(3)).isEqualTo(study.run(3));
        assertThat(study.run(3).get(0).measured())
                .isNotEqualTo(study.run(4).get(0).measured());
    }

    /** Without noise and errors of calibration, clock and stamps, at 1 kHz: less than 0.5 ms, at whatever phase. */
    @Test
    void interpolationLeavesLessThanHalfAMillisecond() throws BenchFailure {
        List<Answer> ideal = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            ideal.addAll(study.ideal(i));
        }
        assertThat(CoverageTable.of(answers, ideal).times())
                .hasSizeGreaterThan(30)
                .allSatisfy(time ->
                        assertThat(time.greatest()).as(time.question().name()).isLessThan(0.5e-3));
    }

    @Test
    void theTableNamesEveryQuantityAndItsVerdict() {
        CoverageTable table = CoverageTable.of(answers, List.of());
        assertThat(table.text())
                .contains(
                        "ep-apply: cylinder@4 above 45 psi", "onset, pipe 4", "99.9 % interval", "that does not stamp");
        assertThat(table.quantities()).hasSizeGreaterThan(60);
    }
}
