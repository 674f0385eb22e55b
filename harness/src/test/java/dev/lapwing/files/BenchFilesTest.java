package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Stream;
import dev.lapwing.bench.Tube;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a bench file says is what its model holds. */
class BenchFilesTest {
    private static final BenchFile BENCH = BenchFiles.load(Good.BENCH).value().orElseThrow();

    @Test
    void linkAndClockAreInBaseUnits() {
        LinkChoice.Simulated link = (LinkChoice.Simulated) BENCH.link();
        assertThat(link.stepSeconds()).isEqualTo(0.001);
        assertThat(link.commandDelayUs()).isEqualTo(200);
        assertThat(link.transducerError()).isCloseTo(0.0005, within(1e-12));
        assertThat(link.spanError().orElseThrow()).isCloseTo(0.0004, within(1e-12));
        assertThat(BENCH.clockRateBound()).isCloseTo(20e-6, within(1e-12));
    }

    @Test
    void pointsKeepTheirOrderAndLeaveOutWhatTheirKindHasNot() {
        assertThat(BENCH.points())
                .startsWith(
                        new Point("P1", PointKind.ANALOG_IN, 0, 65535, 0, 800, 20, 0),
                        new Point("P2", PointKind.ANALOG_IN, 0, 65535, 0, 0, 20, 0))
                .contains(
                        new Point("D1", PointKind.DIGITAL_IN, 0, 1, 0, 0, 10, 200),
                        new Point("W2", PointKind.DIGITAL_OUT, 0, 1, 1, 0, 0, 0));
    }

    @Test
    void aCalibrationReadsInTheSignalsBaseUnit() {
        Calibration pipe = BENCH.inputs().get(0).calibration().orElseThrow();
        assertThat(pipe.value(30000)).isCloseTo(Quantity.of(68, Unit.PSI).base(), within(1e-6));
        assertThat(pipe.standard()).isCloseTo(Quantity.of(0.1, Unit.PSI).base(), within(1e-9));
        assertThat(pipe.due()).isEqualTo("2027-10-01");
        assertThat(BENCH.inputs().get(3).calibration()).isEmpty();
    }

    /** Where nothing is said of it, all that uncertainty and drift allow: twice what both come to. */
    @Test
    void aSpanIsAsStatedOrTheMostThatItMayBeOff() {
        Calibration pipe = BENCH.inputs().get(0).calibration().orElseThrow();
        double psi = Quantity.of(1, Unit.PSI).base();
        assertThat(pipe.span().orElseThrow()).isCloseTo(0.12 * psi, within(1e-9));
        assertThat(pipe.along().turn()).isCloseTo(Math.asin(0.06 / Math.hypot(0.1, 0.05)), within(1e-12));
        Calibration meter = BENCH.inputs().get(2).calibration().orElseThrow();
        assertThat(meter.span()).isEmpty();
        assertThat(meter.along().turn()).isCloseTo(Math.PI / 2, within(1e-7));
    }

    /** On a bench of any other link it is a mistake. */
    @Test
    void aSimulatedTransducerMayBeKnownWithoutDoubt(@TempDir Path folder) throws IOException {
        String exact = Files.readString(Good.BENCH, UTF_8).replace("uncertainty: 0.2 V", "uncertainty: 0 V");
        Path file = Files.writeString(folder.resolve("exact.yaml"), exact, UTF_8);
        BenchFile bench = BenchFiles.load(file).value().orElseThrow();
        assertThat(bench.inputs().get(2).calibration().orElseThrow().standard()).isZero();
    }

    @Test
    void aTubeDelaysItsTransducerWithinABound() {
        assertThat(BENCH.inputs().get(1).tube()).isEqualTo(new Tube(3000, 800));
        assertThat(BENCH.inputs().get(0).tube()).isEqualTo(Tube.NONE);
    }

    @Test
    void aScaleTurnsValuesIntoCounts() {
        Output handle = BENCH.outputs().get(0);
        assertThat(handle.counts(120)).isEqualTo(60000);
        Output speed = BENCH.outputs().get(2);
        assertThat(speed.counts(Quantity.of(50, Unit.KILOMETRE_AN_HOUR).base())).isEqualTo(2_000_000);
        Output deadman = BENCH.outputs().get(4);
        assertThat(deadman.counts(1)).isEqualTo(1);
    }

    @Test
    void streamsAreInMicroseconds() {
        assertThat(BENCH.streams())
                .containsExactly(
                        new Stream("quick", List.of("P1", "P2"), 2000),
                        new Stream("slow", List.of("P3", "C1"), 50_000));
    }
}
