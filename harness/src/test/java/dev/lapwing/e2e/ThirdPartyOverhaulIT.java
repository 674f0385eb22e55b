package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Overhaul sequences through the reference bench in C: what they measure is what simulated runs measure. One of them,
 * at three times real time; {@code -Dlapwing.overhaul=all}, or how a sequence's name begins, chooses others,
 * {@code .speed} how much faster than real time, {@code .together} how many at once; {@code .records} keeps the records
 * in a folder.
 */
@NeedsTools({"make", "cc", "nm"})
class ThirdPartyOverhaulIT {
    private static final Path SEQUENCES = Path.of("sequences/overhaul");
    private static final Path TABLE = Path.of("harness/target/third-party-overhaul.txt");
    private static final String CHOSEN = System.getProperty("lapwing.overhaul", "12-crew-ep-test");
    private static final int SPEED = Integer.getInteger("lapwing.overhaul.speed", 3);
    private static final int TOGETHER = Integer.getInteger("lapwing.overhaul.together", 2);
    private static final String RECORDS = System.getProperty("lapwing.overhaul.records", "");
    private static final int RUNS_MAX = 3;

    @TempDir
    private Path temporary;

    @BeforeAll
    static void build() throws IOException, InterruptedException {
        ReferenceBench.build();
    }

    @Test
    void itMeasuresWhatTheSimulatedRunMeasures() throws Exception {
        List<String> wrong = new ArrayList<>();
        List<String> table = new ArrayList<>(List.of(ThirdPartyRun.HEAD));
        Path records = RECORDS.isEmpty() ? temporary : Path.of(RECORDS);
        ExecutorService pool = Executors.newFixedThreadPool(TOGETHER);
        try {
            List<Future<ThirdPartyRun>> running = new ArrayList<>();
            for (Path sequence : chosen()) {
                running.add(pool.submit(() -> ThirdPartyRun.of(sequence, SPEED, RUNS_MAX, records)));
            }
            for (Future<ThirdPartyRun> one : running) {
                ThirdPartyRun run = one.get();
                wrong.addAll(run.wrong());
                table.add(run.row());
                Files.write(TABLE, Stream.concat(table.stream(), wrong.stream()).toList());
            }
        } finally {
            pool.shutdownNow();
        }
        assertThat(wrong).as(String.join(System.lineSeparator(), table)).isEmpty();
    }

    private static List<Path> chosen() throws IOException {
        try (Stream<Path> all = Files.list(SEQUENCES)) {
            return all.filter(path -> CHOSEN.equals("all")
                            || path.getFileName().toString().startsWith(CHOSEN))
                    .sorted()
                    .toList();
        }
    }
}
