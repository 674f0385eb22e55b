package dev.lapwing.transport.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import dev.lapwing.bench.Bench;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.run.Progress;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.serial.CampaignRun.Came;
import dev.lapwing.uncertainty.Estimate;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Short runs over real pseudo-terminals, each with one fault at one moment, both drawn: no pass that a run without the
 * fault would not give, no bench left live, no record lost. More of them with {@code -Dlapwing.campaign=2000}; one run
 * again with {@code -Dlapwing.campaign=1 -Dlapwing.campaign.seed=SEED}. In real time, several at once: a
 * bench that goes
 * faster has shorter patience, and a busy machine then stops more runs than the faults do.
 */
class FaultCampaignIT {
    private static final int RUNS = Integer.getInteger("lapwing.campaign", 40);
    private static final long SEED = Long.getLong("lapwing.campaign.seed", 1);
    private static final int TOGETHER = Integer.getInteger("lapwing.campaign.together", 8);
    private static final double SPEED = Integer.getInteger("lapwing.campaign.speed", 1);
    private static final Path TABLE = Path.of("harness/target/fault-campaign.txt");

    @TempDir
    private Path records;

    @Test
    void noFaultMakesAPassOrLeavesABenchLive() throws Exception {
        Map<String, Finding> faultFree = faultFree();
        int devices = devices();
        List<Came> all = new ArrayList<>();
        CampaignTable table = new CampaignTable();
        ExecutorService pool = Executors.newFixedThreadPool(TOGETHER);
        try {
            List<Future<Came>> runs = new ArrayList<>();
            for (int i = 0; i < RUNS; i++) {
                long seed = SEED + i;
                runs.add(pool.submit(() -> one(seed)));
            }
            for (Future<Came> run : runs) {
                Came came = run.get();
                table.add(came, falsePasses(came, faultFree));
                all.add(came);
                Files.createDirectories(TABLE.getParent());
                Files.writeString(TABLE, table.text());
            }
        } finally {
            pool.shutdownNow();
        }
        await("threads of the links end")
                .atMost(Duration.ofSeconds(5))
                .untilAsserted(() -> assertThat(threads()).isEmpty());
        assertThat(devices()).as("pseudo-terminals still open").isEqualTo(devices);
        assertThat(all).hasSize(RUNS);
        assertThat(table.broken()).as(table.text()).isEmpty();
    }

    private Came one(long seed) throws Exception {
        Path folder = records.resolve("run-" + seed);
        Came came = CampaignRun.of(SPEED, seed, DrawnFault.of(new SplittableRandom(seed)), folder);
        try (Stream<Path> files = Files.exists(folder) ? Files.walk(folder) : Stream.empty()) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
        return came;
    }

    private Map<String, Finding> faultFree() throws Exception {
        try (Bench bench = FarCab.simulated()) {
            RunRecord record = FarCab.on(
                    CampaignRun.SEQUENCE, bench, FarCab.IN_THIS_PROCESS, records.resolve("fault-free"), Progress.NONE);
            assertThat(record.verdict()).as(record.findings().toString()).isEqualTo(Verdict.PASS);
            return record.findings().stream().collect(Collectors.toMap(Finding::id, Function.identity()));
        }
    }

    /** Findings that passed though the run without the fault has another verdict or another value there. */
    private static List<String> falsePasses(Came came, Map<String, Finding> faultFree) {
        List<String> wrong = new ArrayList<>();
        for (Finding finding : came.findings()) {
            Finding due = faultFree.get(finding.id());
            if (finding.verdict() == Verdict.PASS
                    && !finding.id().startsWith("throughout/")
                    && (due == null || due.verdict() != Verdict.PASS || !agree(finding, due))) {
                wrong.add("false pass of " + finding.id() + ": " + finding.measured() + ", without the fault "
                        + (due == null ? "nothing" : due.measured()));
            }
        }
        if (came.verdict() == Verdict.PASS && came.findings().size() != faultFree.size()) {
            wrong.add("false pass: " + came.findings().size() + " findings of " + faultFree.size());
        }
        return wrong;
    }

    private static boolean agree(Finding one, Finding other) {
        Estimate a = one.measured().orElseThrow();
        Estimate b = other.measured().orElseThrow();
        return Math.abs(a.value() - b.value()) <= a.expanded() + b.expanded();
    }

    private static List<String> threads() {
        return Thread.getAllStackTraces().keySet().stream()
                .map(Thread::getName)
                .filter(name -> name.startsWith("lapwing"))
                .toList();
    }

    private static int devices() throws IOException {
        int count = 0;
        try (Stream<Path> open = Files.list(Path.of("/proc/self/fd"))) {
            for (Path file : open.toList()) {
                boolean terminal = Files.isSymbolicLink(file)
                        && Files.readSymbolicLink(file).toString().matches("/dev/pts/.*|/dev/ptmx|/dev/pts/ptmx");
                count += terminal ? 1 : 0;
            }
        }
        return count;
    }
}
