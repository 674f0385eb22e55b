package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The reference bench in C as a process of its own, reached by the device that it prints. */
final class ReferenceBench implements AutoCloseable {
    private static final Path PROGRAM = Path.of("harness/target/firmware/bench");
    private static final Path POINTS = Path.of("harness/firmware/host");

    private final Process process;
    private final BufferedReader out;
    private final BufferedWriter in;
    private final String device;

    private ReferenceBench(Process process) throws IOException {
        this.process = process;
        out = process.inputReader(US_ASCII);
        in = process.outputWriter(US_ASCII);
        device = out.readLine();
        assertThat(device).as("the bench's device").startsWith("/dev/");
    }

    /** Compiles it where it has not been compiled. */
    static void build() throws IOException, InterruptedException {
        Process make = new ProcessBuilder("make", "-s", "-C", "harness/firmware")
                .redirectErrorStream(true)
                .start();
        String said = new String(make.getInputStream().readAllBytes(), UTF_8);
        assertThat(make.waitFor()).as(said).isZero();
    }

    /** @param points such as {@code worked.points}; the options as the program has them */
    static ReferenceBench start(String points, String... options) throws IOException {
        List<String> command = new ArrayList<>(List.of(PROGRAM.toString()));
        command.addAll(List.of(options));
        command.add(POINTS.resolve(points).toString());
        return new ReferenceBench(new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start());
    }

    String device() {
        return device;
    }

    /** What it says after the device, and how it is answered: for a world that goes on in this process. */
    BufferedReader out() {
        return out;
    }

    BufferedWriter in() {
        return in;
    }

    void pressesOrReleasesTheStopButton() throws IOException, InterruptedException {
        signal("USR1");
    }

    void makesOrMendsASupplyFault() throws IOException, InterruptedException {
        signal("USR2");
    }

    private void signal(String name) throws IOException, InterruptedException {
        Process kill = new ProcessBuilder("kill", "-" + name, String.valueOf(process.pid())).start();
        assertThat(kill.waitFor()).isZero();
    }

    @Override
    public void close() {
        process.destroy();
        try {
            if (!process.waitFor(1, TimeUnit.MINUTES)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        }
    }
}
