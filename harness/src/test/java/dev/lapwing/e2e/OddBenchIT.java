package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.lapwing.NeedsTools;
import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.run.Progress;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.serial.RewrittenLine;
import dev.lapwing.transport.serial.RewrittenLine.Later;
import dev.lapwing.transport.serial.SerialBench;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Nothing that the contract allows confuses the host: the reference bench in C, its lines made odd in lawful ways. */
@NeedsTools({"make", "cc", "nm"})
class OddBenchIT {
    private static final int BAUD = 4_000_000;
    private static final int BEAT_MS = 500;

    @TempDir
    private Path folder;

    @BeforeAll
    static void build() throws IOException, InterruptedException {
        ReferenceBench.build();
    }

    private static ReferenceBench bench() throws IOException {
        return ReferenceBench.start(
                "simulated.points", "--world-elsewhere", "--tick-us", "1000", "--baud", String.valueOf(BAUD));
    }

    private interface Use {
        void of(Bench bench, BenchFile file) throws Exception;
    }

    private static void through(Function<ObjectNode, List<Later>> rewrite, Use use) throws Exception {
        try (ReferenceBench bench = bench();
                TrainElsewhere train = TrainElsewhere.start(bench, Path.of("fixtures/classic.yaml"), FarCab.SEED);
                RewrittenLine line = new RewrittenLine(bench.device(), BAUD, rewrite)) {
            BenchFile file = FarCab.reached(new LinkChoice.Serial(line.device(), BAUD, BEAT_MS, 1));
            LinkChoice.Serial link = (LinkChoice.Serial) file.link();
            try (Bench serial = SerialBench.open(file, link, FarCab.host(1), MonotonicClock.system())) {
                use.of(serial, file);
            }
            assertThat(train.failed()).isEmpty();
        }
    }

    @Test
    void anOddBenchThatKeepsTheContractMeasuresWhatTheSimulatedRunMeasures() throws Exception {
        LawfulOddities oddities = new LawfulOddities(5);
        through(oddities, (serial, file) -> {
            RunRecord linked = FarCab.on(serial, file, folder.resolve("odd"), Progress.NONE);
            assertThat(linked.course().troubles()).isEmpty();
            assertThat(linked.verdict()).as(linked.findings().toString()).isEqualTo(Verdict.PASS);
            try (Bench inThisProcess = FarCab.simulated()) {
                FarCab.assertAgrees(
                        linked,
                        FarCab.on(inThisProcess, FarCab.IN_THIS_PROCESS, folder.resolve("simulated"), Progress.NONE));
            }
        });
        assertThat(oddities.shorterBatches()).as("batches are cut short").isPositive();
    }

    @Test
    void aBenchThatRefusesAStreamAsUnsupportedIsNotArmedAndSaysSo() throws Exception {
        through(
                OddBenchIT::refusingStreams,
                (serial, file) -> assertThatThrownBy(serial::arm)
                        .isInstanceOf(BenchFailure.class)
                        .hasMessageContaining("stream 'quick'")
                        .hasMessageContaining("unsupported"));
    }

    /** Answers to streams are {@code done} without {@code at-us}: they become refusals. */
    private static List<Later> refusingStreams(ObjectNode message) {
        if (message.path("m").asText().equals("done") && !message.has("at-us")) {
            message.put("m", "refused")
                    .put("why", "unsupported: this board is too slow")
                    .remove("next");
        } else if (message.path("m").asText().equals("bench")) {
            message.put("dense", false);
        }
        return List.of(new Later(message, "all", 0));
    }
}
