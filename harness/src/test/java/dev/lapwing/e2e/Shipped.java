package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** The harness as it is shipped: the launcher as a process, in this checkout. */
final class Shipped {
    private static final long MINUTES_MAX = 20;

    private static final int TRIES_MAX = 3;

    /** What is said where the machine stood still for longer than the bench or the host may be silent. */
    private static final List<String> STOOD_STILL = List.of(
            "it heard nothing from this host",
            "again and again a round trip took",
            "said six times and not answered",
            "nothing heard for 3 s",
            "gave no good answer");

    /** A process that has ended. */
    record Ended(int exit, String out, String err) {
        /** Whether the link was lost, as it must be where the machine stands still. */
        boolean lostItsLink() {
            String said = (out + err).replaceAll("\\s+", " ");
            return exit == 3 && STOOD_STILL.stream().anyMatch(said::contains);
        }
    }

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

    /**
     * As above, over a real link in real time: where it was lost because the machine stood still it is done anew, so
     * that there are three tries at most.
     *
     * @param records where the command leaves its records; what is there of a try that was cut short is taken away
     */
    static Ended lapwingOverALink(Path records, Object... arguments) throws IOException, InterruptedException {
        for (int left = TRIES_MAX; ; left--) {
            try (Stalls stalls = new Stalls()) {
                Ended ended = lapwing(arguments);
                if (left == 1 || !ended.lostItsLink() || !stalls.seen()) {
                    return ended;
                }
            }
            takeAway(records);
        }
    }

    /** A sequence on a bench that nobody watches, over a real link as above, its record in that folder. */
    static Ended run(Path bench, Path records, Path sequence) throws IOException, InterruptedException {
        return lapwingOverALink(
                records, "run", "--plain", "--bench", bench, "--armed-by", "T. Night", "--records", records, sequence);
    }

    /**
     * {@code bench show}: where the machine stood still for half a second, so that a ping counts as lost, it is looked
     * at again, so that there are three looks at most.
     */
    static Ended shown(Object... arguments) throws IOException, InterruptedException {
        List<Object> command = new ArrayList<>(List.of("bench", "show"));
        command.addAll(List.of(arguments));
        for (int left = TRIES_MAX; ; left--) {
            try (Stalls stalls = new Stalls()) {
                Ended ended = lapwing(command.toArray());
                if (left == 1 || ended.out.contains("; 0 lost") || !stalls.seen()) {
                    return ended;
                }
            }
        }
    }

    private static void takeAway(Path folder) throws IOException {
        if (Files.notExists(folder)) {
            return;
        }
        try (Stream<Path> inside = Files.walk(folder)) {
            for (Path each : inside.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
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
