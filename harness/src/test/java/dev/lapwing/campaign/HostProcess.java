package dev.lapwing.campaign;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.cli.Lapwing;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** A real host: the harness as a process of its own, which drives the bench until it is done or done for. */
final class HostProcess {
    private static final Path BENCH = Path.of("bench-config/simulated.yaml");
    private static final long SECONDS_MAX = 180;

    private final Path folder;
    private final Process process;

    private HostProcess(Path folder, Process process) {
        this.folder = folder;
        this.process = process;
    }

    static HostProcess start(Path folder, String link, Path sequence) throws IOException {
        Path bench = folder.resolve("bench.yaml");
        Files.writeString(bench, Files.readString(BENCH, UTF_8).replaceFirst("link:\\n( .*\\n)+", link), UTF_8);
        List<String> command = List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-Dlapwing.home=" + Path.of("").toAbsolutePath(),
                "-cp",
                System.getProperty("java.class.path"),
                Lapwing.class.getName(),
                "run",
                "--plain",
                "--bench",
                bench.toString(),
                "--armed-by",
                "the campaign",
                "--records",
                folder.resolve("records").toString(),
                sequence.toString());
        Process process = new ProcessBuilder(command)
                .redirectInput(Path.of("/dev/null").toFile())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("host.txt").toFile())
                .start();
        return new HostProcess(folder, process);
    }

    /** SIGKILL. */
    void kill() {
        process.destroyForcibly();
    }

    /** SIGTERM. */
    void terminate() {
        process.destroy();
    }

    /** Whether it ended by itself in time; if not, it is killed. */
    boolean ends() throws InterruptedException {
        boolean ended = process.waitFor(SECONDS_MAX, TimeUnit.SECONDS);
        if (!ended) {
            process.destroyForcibly().waitFor(5, TimeUnit.SECONDS);
        }
        return ended;
    }

    /** What it printed last. */
    String said() throws IOException {
        List<String> lines = Files.readAllLines(folder.resolve("host.txt"), UTF_8);
        return lines.isEmpty() ? "" : lines.get(lines.size() - 1);
    }

    /** The record that it began, if it came so far. */
    Optional<Path> record() throws IOException {
        Path records = folder.resolve("records");
        if (!Files.exists(records)) {
            return Optional.empty();
        }
        try (Stream<Path> files = Files.walk(records)) {
            return files.filter(file -> file.endsWith("run.json"))
                    .map(Path::getParent)
                    .findFirst();
        }
    }
}
