package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Unit;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class InputTextTest {
    private static final BenchFile FILE =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
    private static final InputText TEXT = new InputText(FILE, PressureDisplay.PSI);
    private static final Input PIPE = FILE.inputs().stream()
            .filter(input -> input.signal().key().equals("brake-pipe@1"))
            .findFirst()
            .orElseThrow();

    @Test
    void aReadingHasTheDecimalsThatItsResolutionEarns() {
        assertThat(TEXT.value(PIPE, 30_000)).isEqualTo("70.00 psi");
    }

    @Test
    void whatRoundsToNothingHasNoSign() {
        assertThat(TEXT.figure(PIPE, Unit.PSI.toBase(-0.004))).isEqualTo("0.00 psi");
        assertThat(TEXT.figure(PIPE, Unit.PSI.toBase(-0.006))).isEqualTo("-0.01 psi");
    }
}
