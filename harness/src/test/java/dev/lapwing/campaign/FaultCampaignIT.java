package dev.lapwing.campaign;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.campaign.CampaignRun.Came;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Short runs over real pseudo-terminals and real brokers, each with one fault at one moment: no pass that a run without
 * the fault would not give, no bench left live, no record lost, nothing left behind. More of them with
 * {@code -Dlapwing.campaign=2000}; one run again with {@code -Dlapwing.campaign=1 -Dlapwing.campaign.seed=SEED}. In
 * real time, many at once: a bench that goes faster has shorter patience, and a busy machine then stops more runs than
 * the faults do.
 */
@NeedsTools({"mosquitto"})
class FaultCampaignIT {
    private static final int RUNS = Integer.getInteger("lapwing.campaign", 33);
    private static final long SEED = Long.getLong("lapwing.campaign.seed", 0);
    private static final int TOGETHER = Integer.getInteger("lapwing.campaign.together", 16);
    /** Begun by whoever needs it first, and there for all. */
    private static final String OF_A_LIBRARY = "JNA Cleaner";

    private static final Path TABLE = Path.of("harness/target/fault-campaign.txt");

    @TempDir
    private Path folder;

    @Test
    void noFaultMakesAPassOrLeavesABenchLive() throws Exception {
        FaultFree faultFree = FaultFree.run(folder);
        List<String> open = open();
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
                table.add(came, faultFree.falsePasses(came));
                Files.createDirectories(TABLE.getParent());
                Files.writeString(TABLE, table.text());
            }
        } finally {
            pool.shutdownNow();
        }
        await("devices and sockets are closed")
                .untilAsserted(() -> assertThat(open()).hasSameSizeAs(open));
        assertThat(table.broken()).as(table.text()).isEmpty();
    }

    /** A run with all of its threads in a group of its own: none may be left. */
    private Came one(long seed) throws Exception {
        Path own = Files.createDirectory(folder.resolve("run-" + seed));
        ThreadGroup group = new ThreadGroup("run " + seed);
        FutureTask<Came> run = new FutureTask<>(() -> new CampaignRun(seed, DrawnFault.of(seed), own).run());
        new Thread(group, run, "run " + seed).start();
        Came came = came(run, seed);
        for (int i = 0; i < 2_000 && !threads(group).isEmpty(); i++) {
            TimeUnit.MILLISECONDS.sleep(10);
        }
        threads(group).forEach(name -> came.broken().add("left behind: thread " + name));
        try (Stream<Path> files = Files.walk(own)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
        return came;
    }

    private static Came came(FutureTask<Came> run, long seed) throws InterruptedException {
        try {
            return run.get();
        } catch (ExecutionException e) {
            return Came.broken(seed, DrawnFault.of(seed), "the run itself failed: " + e.getCause());
        }
    }

    private static List<String> threads(ThreadGroup group) {
        Thread[] threads = new Thread[group.activeCount() + 10];
        int count = group.enumerate(threads);
        return Stream.of(threads)
                .limit(count)
                .map(Thread::getName)
                .filter(name -> !name.equals(OF_A_LIBRARY))
                .toList();
    }

    /** Terminals, sockets and pipes that this process has open. */
    private static List<String> open() throws IOException {
        List<String> open = new ArrayList<>();
        try (Stream<Path> files = Files.list(Path.of("/proc/self/fd"))) {
            for (Path file : files.toList()) {
                if (Files.isSymbolicLink(file)) {
                    String what = Files.readSymbolicLink(file).toString();
                    if (what.matches("/dev/pts/.*|/dev/ptmx|socket:.*|pipe:.*")) {
                        open.add(what);
                    }
                }
            }
        }
        return open;
    }
}
