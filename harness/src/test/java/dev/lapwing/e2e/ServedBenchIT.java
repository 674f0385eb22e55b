package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.e2e.Shipped.Ended;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/** Two processes and a serial device between them: the bench is served by one and used by the other. */
class ServedBenchIT {
    private static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/far-cab.yaml");

    @TempDir
    private Path folder;

    private Process served;
    private Path bench;

    @BeforeEach
    void serve() throws IOException {
        served = Shipped.start("bench", "serve", "--serial", "--seed", 7);
        BufferedReader out = served.inputReader();
        String device = out.readLine();
        bench = Shipped.served(folder, "serial: {device: " + device + ", beat: 500 ms}");
    }

    @AfterEach
    void stop() throws InterruptedException {
        served.destroy();
        assertThat(served.waitFor(1, TimeUnit.MINUTES)).isTrue();
        assertThat(served.exitValue()).isZero();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aServedBenchIsShownAndRunsASequence() throws Exception {
        Ended shown = Shipped.shown(bench, "--pings", 50);
        assertThat(shown.exit()).as(shown.err()).isZero();
        assertThat(shown.out()).contains("simulated-four-vehicle-bench", "50 pings; 0 lost", "HANDLE");

        Ended run = Shipped.run(bench, folder.resolve("records"), SEQUENCE);

        assertThat(run.exit()).as(run.out() + run.err()).isZero();
        assertThat(run.out()).contains("[ ] ", "Armed by T. Night", "It states nothing about any real unit");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void nothingIsArmedThatNobodyAnswersFor() throws Exception {
        Process run = Shipped.start("run", "--plain", "--bench", bench, "--records", folder, SEQUENCE);
        run.getOutputStream().write("yes\n".getBytes(UTF_8));
        run.getOutputStream().close();
        Ended ended = Shipped.ended(run);

        assertThat(ended.exit()).isEqualTo(64);
        assertThat(ended.out()).contains("Local codes");
        assertThat(ended.err()).contains("not armed", "--armed-by");
    }
}
