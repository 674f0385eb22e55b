package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.e2e.Shipped.Ended;
import java.io.BufferedReader;
import java.io.IOException;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** A person at the keyboard of a command. Stays there: an end of the input would stop it. */
final class Typist {
    private final Process process;

    private Typist(Process process) {
        this.process = process;
    }

    /** Starts the command and sits down before it. */
    static Typist at(Object... command) throws IOException {
        return new Typist(Shipped.startHearingCtrlC(command));
    }

    /** Types everything beforehand, and waits for the end. */
    static Ended typing(List<String> lines, Object... command) throws Exception {
        Typist typist = at(command);
        typist.types(lines.toArray(String[]::new));
        return typist.ended();
    }

    void types(String... lines) throws IOException {
        process.getOutputStream().write((String.join("\n", lines) + "\n").getBytes(UTF_8));
        process.getOutputStream().flush();
    }

    /** Reads whole lines until one holds one of these. */
    String until(String... words) throws IOException {
        StringBuilder said = new StringBuilder();
        BufferedReader out = process.inputReader();
        while (Stream.of(words).noneMatch(each -> said.indexOf(each) >= 0)) {
            String line = out.readLine();
            assertThat(line).as(said.toString()).isNotNull();
            said.append(line).append('\n');
        }
        return said.toString();
    }

    /** Presses Ctrl-C, or sends another signal to the command. */
    void signals(String name) throws Exception {
        Process kill = new ProcessBuilder("kill", "-" + name, String.valueOf(process.pid())).start();
        assertThat(kill.waitFor(1, TimeUnit.MINUTES)).isTrue();
    }

    /** What it has said since it was last read, and how it ended. */
    Ended ended() throws Exception {
        return Shipped.ended(process);
    }
}
