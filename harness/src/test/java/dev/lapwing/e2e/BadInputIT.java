package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.e2e.Shipped.Ended;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What a user gets for a mistake in a file: a clear line each, exit 64, no stack trace, nothing run. */
class BadInputIT {
    private static final String GOOD = """
            sequence: A small one
            purpose: To be spoilt.
            needs: [ep-brake]
            steps:
              - handle: full-ep
              - expect:
                  fills:
                    rises-above: {signal: brake-cylinder at last, level: ep-rise-level, within: ep-rise-time}
            """;

    @TempDir
    Path folder;

    /** A spoilt file and what must be said of it. */
    record Spoilt(String what, String text, String said) {
        @Override
        public String toString() {
            return what;
        }
    }

    static Stream<Spoilt> spoilt() {
        return Stream.of(
                new Spoilt("mistyped key", GOOD.replace("  - handle:", "  - hanlde:"), "did you mean 'handle'?"),
                new Spoilt("wrong unit", GOOD.replace("level: ep-rise-level", "level: 45 s"), "45 s"),
                new Spoilt("no unit", GOOD.replace("level: ep-rise-level", "level: 45"), "no unit"),
                new Spoilt(
                        "unknown wire",
                        GOOD.replace("  - handle: full-ep", "  - feed-wire: {aplication: on}"),
                        "aplication"),
                new Spoilt("limit out of range", GOOD.replace("level: ep-rise-level", "level: 450 psi"), "range"),
                new Spoilt("include loop", GOOD.replace("needs:", "include: [loop.yaml]\nneeds:"), "loop.yaml"),
                new Spoilt("empty file", "", "empty"),
                new Spoilt("no expectation", GOOD.substring(0, GOOD.indexOf("  - expect")), "expect"));
    }

    @ParameterizedTest
    @MethodSource("spoilt")
    void aMistakeIsNamedWithItsPlaceAndNothingIsRun(Spoilt spoilt) throws Exception {
        Files.writeString(folder.resolve("loop.yaml"), "include: [loop.yaml]\nparts:\n  a:\n    - wait: 1 s\n");
        Path file = Files.writeString(folder.resolve("spoilt.yaml"), spoilt.text());

        Ended run = Shipped.lapwing("run", "--records", folder.resolve("records"), file);

        assertThat(run.exit()).as(run.out() + run.err()).isEqualTo(64);
        assertThat(run.err())
                .contains(spoilt.said())
                .containsPattern("\\.yaml:\\d+:\\d+: ")
                .doesNotContain("\tat ", "Exception");
        assertThat(folder.resolve("records")).doesNotExist();
    }

    @Test
    void fiftyMegabytesAndJunkAreRefusedAtOnce() throws Exception {
        Path large = folder.resolve("large.yaml");
        Files.write(large, new byte[50 * 1024 * 1024]);
        byte[] junk = new byte[4096];
        new Random(1).nextBytes(junk);
        Path binary = Files.write(folder.resolve("junk.yaml"), junk);

        for (Path file : new Path[] {large, binary, folder.resolve("missing.yaml")}) {
            Ended run = Shipped.lapwing("run", file);
            assertThat(run.exit()).as(run.out() + run.err()).isEqualTo(64);
            assertThat(run.err()).contains(file.getFileName().toString()).doesNotContain("\tat ", "Exception");
        }
    }

    @Test
    void aWrongOptionIsUsage() throws IOException, InterruptedException {
        assertThat(Shipped.lapwing("run", "--seed", "seven", "sequences/overhaul")
                        .exit())
                .isEqualTo(64);
        assertThat(Shipped.lapwing("judge", folder.resolve("nothing")).exit()).isEqualTo(64);
    }
}
