package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.transport.mqtt.Mosquitto;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/** Commissioning as it is shipped, with a person who types, over both links; and a person who presses Ctrl-C. */
class CommissioningLinksIT {
    @TempDir
    private Path folder;

    private Process served;

    @AfterEach
    void stop() throws InterruptedException {
        served.destroy();
        assertThat(served.waitFor(1, TimeUnit.MINUTES)).isTrue();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void ctrlCInAnExerciseLeavesTheBenchSafe() throws Exception {
        Path bench = overSerial();
        Typist exercise = Typist.at("bench", "exercise", bench, "--output", "handle");
        exercise.types("T. Night", "arm", "");
        String said = exercise.until("Read back");
        exercise.signals("INT");
        Ended ended = exercise.ended();

        assertThat(said).contains("Before bench").contains("to 30 deg");
        assertThat(ended.out()).contains("The bench is safe.", "Left out:      1: handle");
        assertThat(ended.exit()).isEqualTo(2);
        // An armed bench lets no other host in.
        assertThat(Shipped.lapwing("bench", "show", bench, "--pings", 1).exit()).isZero();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void ctrlCInACalibrationWritesNothing() throws Exception {
        Path bench = overSerial();
        String before = Files.readString(bench, UTF_8);
        Typist calibrate = Typist.at("bench", "calibrate", bench, "--signal", "brake-pipe@1");
        calibrate.types("0 psi");
        calibrate.until("the calibration in force reads");
        calibrate.signals("INT");
        Ended ended = calibrate.ended();

        assertThat(ended.out()).contains("Nothing was written");
        assertThat(ended.exit()).isEqualTo(2);
        assertThat(Files.readString(bench, UTF_8)).isEqualTo(before);
        assertThat(Shipped.lapwing("bench", "show", bench, "--pings", 1).exit()).isZero();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"mosquitto"})
    void everythingIsDoneOverABrokerToo() throws Exception {
        Mosquitto broker = Mosquitto.start(folder);
        try {
            served = Shipped.start("bench", "serve", "--mqtt", broker.url());
            String name = served.inputReader().readLine();
            Path bench =
                    Shipped.served(folder, "mqtt: {broker: '" + broker.url() + "', name: " + name + ", beat: 500 ms}");

            Ended shown = Shipped.shown("--mqtt", broker.url(), "--name", name, "--pings", 20);
            Ended found = Shipped.shown("--mqtt", broker.url(), "--pings", 20);
            assertThat(found.out()).as(found.err()).contains("Bench:      " + name, "of 20 pings; 0 lost");
            assertThat(shown.out())
                    .as(shown.err())
                    .contains(name, "of 20 pings; 0 lost", "Clock:      states 20 ppm", "HANDLE")
                    .containsPattern("half within [0-9.]+ ms, 99 % within [0-9.]+ ms, all within [0-9.]+ ms");

            Ended heard = Shipped.lapwing("bench", "listen", bench, "--for", "2s", "--plain");
            assertThat(heard.out()).as(heard.err()).containsPattern("brake-pipe@1 +BP1 +-?[0-9.]+ psi");

            Ended exercised = Typist.typing(
                    List.of("T. Night", "arm", "", "y"), "bench", "exercise", bench, "--output", "handle");
            assertThat(exercised.out()).as(exercised.err()).contains("Confirmed:     1: handle", "handle-angle on");
            assertThat(exercised.exit()).isZero();

            Ended calibrated =
                    Typist.typing(List.of("0 psi", "stop"), "bench", "calibrate", bench, "--signal", "brake-pipe@1");
            assertThat(calibrated.out()).as(calibrated.err()).contains("noise", "Nothing was written");
            assertThat(calibrated.exit()).isEqualTo(2);
        } finally {
            broker.kill();
        }
    }

    private Path overSerial() throws IOException {
        served = Shipped.start("bench", "serve", "--serial");
        return Shipped.served(folder, "serial: {device: " + served.inputReader().readLine() + ", beat: 500 ms}");
    }
}
