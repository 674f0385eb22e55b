package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import java.io.IOException;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** The reference bench in C, built and checked by its own tests: it shares nothing with this side but the contract. */
@NeedsTools({"make", "cc", "nm"})
class FirmwareIT {

    @Test
    void theReferenceBenchPassesItsOwnTests() throws IOException, InterruptedException {
        Process make = new ProcessBuilder("make", "-C", "harness/firmware", "test")
                .redirectErrorStream(true)
                .start();
        make.getOutputStream().close();
        String said = new String(make.getInputStream().readAllBytes(), UTF_8);

        assertThat(make.waitFor(120, TimeUnit.SECONDS)).isTrue();
        assertThat(said).containsPattern("[0-9]{2,} tests of the core, 0 failed");
        assertThat(make.exitValue()).as(said).isZero();
    }
}
