package dev.lapwing.measure;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Calibration.Pair;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.naming.Keys;
import dev.lapwing.signal.Traces;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;

/** A bench's reports, block by block, of two pressures in psi and a wire, into a recording that grows. */
final class Feed {
    static final double PSI = HandMade.PSI;
    static final int FILTER_US = 800;
    static final int GLITCH_US = 200;
    private static final long EVERY_US = 2000;
    private static final long END_US = 4_000_000;
    private static final Place PLACE = new Place("b", 1, 1);

    private final SplittableRandom random;
    private final DoubleUnaryOperator pipe;
    private final DoubleUnaryOperator cylinder;
    private final GrowingRecording recording;
    private long nowUs;
    private boolean light;
    private long edgeUs;

    Feed(SplittableRandom random, DoubleUnaryOperator pipe, DoubleUnaryOperator cylinder) {
        this.random = random;
        this.pipe = pipe;
        this.cylinder = cylinder;
        this.recording = new GrowingRecording(bench());
        recording.edge("D1", 0, false);
        edgeUs = 300_000;
    }

    GrowingRecording recording() {
        return recording;
    }

    /** Reports one more block, with the edges before its end; false at the end. */
    boolean more() {
        if (nowUs >= END_US) {
            return false;
        }
        int rows = 1 + random.nextInt(64);
        int[] counts = new int[rows * 2];
        for (int row = 0; row < rows; row++) {
            double t = (nowUs + row * EVERY_US - FILTER_US) * 1e-6;
            counts[2 * row] = counts(pipe.applyAsDouble(t));
            counts[2 * row + 1] = counts(cylinder.applyAsDouble(t));
        }
        long endUs = nowUs + rows * EVERY_US;
        while (edgeUs + GLITCH_US <= endUs) {
            light = !light;
            recording.edge("D1", edgeUs, light);
            edgeUs += 5_000 + random.nextInt(400_000);
        }
        recording.samples(new SampleBlock(bench().streams().get(0), nowUs, rows, counts));
        nowUs = endUs;
        recording.reportedUntil(nowUs);
        return true;
    }

    private int counts(double psi) {
        return (int) Math.round(2000 + 400 * (psi + 0.05 * Traces.normal(random)));
    }

    static BenchFile bench() {
        Calibration calibration = new Calibration(
                List.of(new Pair(2000, 0), new Pair(62_000, 150 * PSI)),
                0.1 * PSI,
                0.05 * PSI,
                0.05 * PSI,
                "2026-09-14",
                "2027-09-14",
                "a test");
        return new BenchFile(
                "b.yaml",
                "bench",
                new LinkChoice.Simulated(0.001, 0, 0, 0, 0),
                20e-6,
                List.of(
                        new Point("BP1", PointKind.ANALOG_IN, 0, 65535, 0, FILTER_US, 20, 0),
                        new Point("BC1", PointKind.ANALOG_IN, 0, 65535, 0, FILTER_US, 20, 0),
                        new Point("D1", PointKind.DIGITAL_IN, 0, 1, 0, 0, 10, GLITCH_US)),
                List.of(
                        new Input(Keys.signal("brake-pipe@1").orElseThrow(), "BP1", Optional.of(calibration), PLACE),
                        new Input(
                                Keys.signal("brake-cylinder@1").orElseThrow(), "BC1", Optional.of(calibration), PLACE),
                        new Input(Keys.signal("wire/warning-light").orElseThrow(), "D1", Optional.empty(), PLACE)),
                List.of(),
                List.of(
                        new Stream("quick", List.of("BP1", "BC1"), EVERY_US),
                        new Stream("slow", List.of("BP1"), 50_000)));
    }
}
