package dev.lapwing.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.cli.ServedForTest.Ended;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What cannot be served is said before anything is. */
class ServeCommandTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource({
        "dead-transducer=BC9, 64, 'BC9'' is no analogue input'",
        "dead-transducer=BC1:70000, 64, 'counts from 0 to 65535'"
    })
    void aFaultThatTheBenchCannotHaveIsRefused(String fault, int exit, String why) {
        Ended ended = ServedForTest.lapwing("bench", "serve", "--serial", "--fault", fault);

        assertThat(ended.exit()).isEqualTo(exit);
        assertThat(ended.err()).contains(why);
    }

    @Test
    void aBenchThatCannotSayAllThatItHasIsRefused() throws Exception {
        String many = IntStream.range(100, 400)
                .mapToObj(i -> "  W" + i + ": {kind: digital-out, safe: 0 counts}\n")
                .collect(Collectors.joining());
        String text = Files.readString(Path.of("bench-config/simulated.yaml"), UTF_8)
                .replace(
                        "  W31: {kind: digital-out, safe: 0 counts}\n",
                        "  W31: {kind: digital-out, safe: 0 counts}\n" + many);
        Path file = Files.writeString(folder.resolve("many.yaml"), text, UTF_8);

        Ended ended = ServedForTest.lapwing("bench", "serve", "--serial", "--bench", file.toString());

        assertThat(ended.exit()).isEqualTo(64);
        assertThat(ended.err())
                .contains("many.yaml: a bench of 368 points takes", "the bench link carries 16384 at once");
    }
}
