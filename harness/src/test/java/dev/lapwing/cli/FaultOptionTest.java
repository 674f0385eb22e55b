package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.TimedFault;
import java.nio.file.Path;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine.TypeConversionException;

class FaultOptionTest {
    private static TimedFault read(String text) {
        return new FaultOption().convert(text);
    }

    @Test
    void aFaultHasAFigureAndAMoment() {
        assertThat(read("bit-errors=1e-4")).isEqualTo(new TimedFault(new BenchFault.BitErrors(1e-4), 0));
        assertThat(read("delay=20 ms/5 ms@1.5 s"))
                .isEqualTo(new TimedFault(new BenchFault.Delayed(20_000_000, 5_000_000), 1_500_000_000));
        assertThat(read("dead-transducer=BC1:0@3s"))
                .isEqualTo(new TimedFault(new BenchFault.DeadTransducer("BC1", OptionalInt.of(0)), 3_000_000_000L));
        assertThat(read("dead-transducer=BC1").fault())
                .isEqualTo(new BenchFault.DeadTransducer("BC1", OptionalInt.empty()));
        assertThat(read("power-loss@2 min")).isEqualTo(new TimedFault(new BenchFault.PowerLoss(), 120_000_000_000L));
    }

    @Test
    void aDeadTransducerIsOneOfTheBenchAndReadsWhatItCan() {
        BenchFile bench =
                BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
        assertThat(FaultOption.unfit(read("dead-transducer=BC1:65535").fault(), bench))
                .isEmpty();
        assertThat(FaultOption.unfit(read("dead-transducer=BC1").fault(), bench))
                .isEmpty();
        assertThat(FaultOption.unfit(read("reset").fault(), bench)).isEmpty();
        assertThat(FaultOption.unfit(read("dead-transducer=BC9").fault(), bench))
                .hasValueSatisfying(why -> assertThat(why)
                        .startsWith("'BC9' is no analogue input of bench-config/simulated.yaml; it has BP1, BP2"));
        assertThat(FaultOption.unfit(read("dead-transducer=D1").fault(), bench)).isPresent();
        assertThat(FaultOption.unfit(read("dead-transducer=HANDLE").fault(), bench))
                .isPresent();
        assertThat(FaultOption.unfit(read("dead-transducer=BC1:65536").fault(), bench))
                .contains("'BC1' counts from 0 to 65535");
    }

    @ParameterizedTest
    @CsvSource({
        "bit-errors, probability",
        "dropped=2, probability",
        "doubled=NaN, probability",
        "stall=3, no time",
        "stall=-3 s, no time",
        "unplugged=3 psi, no time",
        "reset=3, no figure",
        "reset@soon, no time",
        "dead-transducer=, it is no fault",
        "dead-transducer=BC1:x, counts",
        "gremlins, no fault is called"
    })
    void whatIsNoFaultIsSaidAndTheFormsAreNamed(String text, String why) {
        assertThatThrownBy(() -> read(text))
                .isInstanceOf(TypeConversionException.class)
                .hasMessageContaining(why)
                .hasMessageContaining("power-loss");
    }
}
