package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The harness as it is shipped: the launcher as a process, in this checkout. */
final class Shipped {
    private static final long MINUTES_MAX = 6;

    /** A process that has ended. */
    record Ended(int exit, String out, String err) {}

    private Shipped() {}

    /** A bench file's text, but reached by another link, such as {@code serial: {device: /dev/pts/3}}. */
    static String linked(String bench, String link) {
        return bench.replaceFirst("link:\\n( .*\\n)+", "link: {" + link + "}\n");
    }

    /** The shipped simulated bench, but reached by that link; the file lies in the folder. */
    static Path served(Path folder, String link) throws IOException {
        String simulated = Files.readString(Path.of("bench-config/simulated.yaml"), UTF_8);
        return Files.writeString(folder.resolve("bench.yaml"), linked(simulated, link), UTF_8);
    }

    static Ended lapwing(Object... arguments) throws IOException, InterruptedException {
        return ended(start(arguments));
    }

    /** A sequence on a bench that nobody watches, its record in that folder. */
    static Ended run(Path bench, Path records, Path sequence) throws IOException, InterruptedException {
        return lapwing("run", "--plain", "--bench", bench, "--armed-by", "T. Night", "--records", records, sequence);
    }

    static Process start(Object... arguments) throws IOException {
        return start(List.of(), arguments);
    }

    /**
     * Hears Ctrl-C and the end of its terminal even where the tests themselves were started in the background, which
     * lets children ignore them.
     */
    static Process startHearingCtrlC(Object... arguments) throws IOException {
        return start(List.of("env", "--default-signal=INT,HUP"), arguments);
    }

    /** @param before a command that starts the harness, such as {@code env NAME=VALUE} */
    static Process start(List<String> before, Object... arguments) throws IOException {
        List<String> command = new ArrayList<>(before);
        command.add(Path.of("harness/lapwing").toAbsolutePath().toString());
        for (Object argument : arguments) {
            command.add(argument.toString());
        }
        return new ProcessBuilder(command).start();
    }

    static Ended ended(Process process) throws IOException, InterruptedException {
        StringBuilder err = new StringBuilder();
        Thread reader = new Thread(() -> {
            try {
                err.append(new String(process.getErrorStream().readAllBytes(), UTF_8));
            } catch (IOException e) {
                err.append(e);
            }
        });
        reader.start();
        String out = new String(process.getInputStream().readAllBytes(), UTF_8);
        assertThat(process.waitFor(MINUTES_MAX, TimeUnit.MINUTES)).isTrue();
        reader.join();
        return new Ended(process.exitValue(), out, err.toString());
    }
}
