package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** A small coverage study, every train and kind of bench in it; the long one is in {@code harness/docs/coverage.md}. */
class CoverageIT {

    @Test
    void aSmallStudyFindsNothingAgainstAnyStatedUncertainty() throws Exception {
        Shipped.Ended study = Shipped.lapwing("coverage", "--runs", 60, "--seed", 3);

        assertThat(study.out())
                .contains("60 runs, seed 3")
                .contains("### Four vehicles\n", "### Four vehicles, charging\n")
                .contains("### Twelve vehicles\n", "### Twelve vehicles, charging\n")
                .contains("### Four vehicles, a bench that does not stamp\n")
                .contains("| emergency: pipe@12 below 52 psi |", "| gap-1000: lowest, cylinder 1 |")
                .contains("Interpolation alone, at 1 kHz", "Times of crossings, benches that stamp")
                .contains("\nmet: ");
        assertThat(study.exit()).isZero();
    }

    @Test
    void runsThatCannotBeAreRefused() throws Exception {
        Shipped.Ended refused = Shipped.lapwing("coverage", "--runs", 0);

        assertThat(refused.exit()).isEqualTo(64);
        assertThat(refused.err()).contains("'0' is no number of runs from 1 to 1000000");
    }
}
