package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class LapwingTest {

    @Test
    void theVersionIsOneLineOnStandardOutput() {
        StringWriter out = new StringWriter();
        int exit = new CommandLine(new Lapwing())
                .setOut(new PrintWriter(out, true))
                .execute("--version");

        assertThat(exit).isZero();
        assertThat(out.toString().lines()).singleElement().asString().startsWith("lapwing ");
    }
}
