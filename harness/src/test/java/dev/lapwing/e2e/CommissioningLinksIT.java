package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.transport.mqtt.Mosquitto;
import java.io.BufferedReader;
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
        assertThat(served.waitFor(20, TimeUnit.SECONDS)).isTrue();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void ctrlCInAnExerciseLeavesTheBenchSafe() throws Exception {
        Path bench = overSerial();
        Process exercise = Shipped.startHearingCtrlC("bench", "exercise", bench, "--output", "handle");
        typed(exercise, "T. Night arm", "");
        String said = until(exercise, "Read back");
        interrupt(exercise);
        Ended ended = Shipped.ended(exercise);

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
        Process calibrate = Shipped.startHearingCtrlC("bench", "calibrate", bench, "--signal", "brake-pipe@1");
        typed(calibrate, "0 psi");
        until(calibrate, "the calibration in force reads");
        interrupt(calibrate);
        Ended ended = Shipped.ended(calibrate);

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
            Path bench = bench("mqtt: {broker: '" + broker.url() + "', name: " + name + ", beat: 500 ms}");

            Ended shown = Shipped.lapwing("bench", "show", "--mqtt", broker.url(), "--name", name, "--pings", 20);
            assertThat(shown.out())
                    .as(shown.err())
                    .contains(name, "of 20 pings; 0 lost", "Clock:      states 20 ppm", "HANDLE")
                    .containsPattern("p50 [0-9.]+ ms, p99 [0-9.]+ ms");

            Ended heard = Shipped.lapwing("bench", "listen", bench, "--for", "2s", "--plain");
            assertThat(heard.out()).as(heard.err()).containsPattern("brake-pipe@1 +BP1 +-?[0-9.]+ psi");

            Ended exercised =
                    typing(List.of("T. Night arm", "", "y"), "bench", "exercise", bench, "--output", "handle");
            assertThat(exercised.out()).as(exercised.err()).contains("Confirmed:     1: handle", "handle-angle on");
            assertThat(exercised.exit()).isZero();

            Ended calibrated =
                    typing(List.of("0 psi", "stop"), "bench", "calibrate", bench, "--signal", "brake-pipe@1");
            assertThat(calibrated.out()).as(calibrated.err()).contains("noise", "Nothing was written");
            assertThat(calibrated.exit()).isEqualTo(2);
        } finally {
            broker.kill();
        }
    }

    private Path overSerial() throws IOException {
        served = Shipped.start("bench", "serve", "--serial");
        return bench("serial: {device: " + served.inputReader().readLine() + ", beat: 500 ms}");
    }

    private Path bench(String link) throws IOException {
        String simulated = Files.readString(Path.of("bench-config/simulated.yaml"), UTF_8);
        return Files.writeString(
                folder.resolve("bench.yaml"),
                simulated.replaceFirst("link:\\n( .*\\n)+", "link: {" + link + "}\n"),
                UTF_8);
    }

    private static Ended typing(List<String> lines, Object... arguments) throws Exception {
        Process process = Shipped.start(arguments);
        typed(process, lines.toArray(String[]::new));
        return Shipped.ended(process);
    }

    /** Whoever types stays at the keyboard: an end of the input would stop it. */
    private static void typed(Process process, String... lines) throws IOException {
        process.getOutputStream().write((String.join("\n", lines) + "\n").getBytes(UTF_8));
        process.getOutputStream().flush();
    }

    private static String until(Process process, String words) throws IOException {
        StringBuilder said = new StringBuilder();
        BufferedReader out = process.inputReader();
        while (said.indexOf(words) < 0) {
            String line = out.readLine();
            assertThat(line).as(said.toString()).isNotNull();
            said.append(line).append('\n');
        }
        return said.toString();
    }

    private static void interrupt(Process process) throws Exception {
        Process kill = new ProcessBuilder("kill", "-INT", String.valueOf(process.pid())).start();
        assertThat(kill.waitFor(10, TimeUnit.SECONDS)).isTrue();
    }
}
