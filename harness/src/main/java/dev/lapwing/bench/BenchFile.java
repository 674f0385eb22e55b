package dev.lapwing.bench;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Predicate;

/**
 * What the unit is connected to.
 *
 * @param file       the file it was read from, as the user named it
 * @param name       the bench's name
 * @param link       how it is reached
 * @param clockRateBound bound of the bench clock's rate error, as a share (50 ppm is 50e-6)
 * @param points     terminals of the bench
 * @param inputs     which point carries which signal
 * @param outputs    which point drives which actuator
 * @param streams    which points are sampled how often
 * @param limits     what readings may not leave while the bench is armed
 */
public record BenchFile(
        String file,
        String name,
        LinkChoice link,
        double clockRateBound,
        List<Point> points,
        List<Input> inputs,
        List<Output> outputs,
        List<Stream> streams,
        List<SafetyLimit> limits) {
    public BenchFile {
        points = List.copyOf(points);
        inputs = List.copyOf(inputs);
        outputs = List.copyOf(outputs);
        streams = List.copyOf(streams);
        // Records from before there were limits name none.
        limits = List.copyOf(Objects.requireNonNullElse(limits, List.of()));
    }

    /** A bench without safety limits. */
    public BenchFile(
            String file,
            String name,
            LinkChoice link,
            double clockRateBound,
            List<Point> points,
            List<Input> inputs,
            List<Output> outputs,
            List<Stream> streams) {
        this(file, name, link, clockRateBound, points, inputs, outputs, streams, List.of());
    }

    /** Keys of the signals whose calibration states no date until which it holds. */
    public List<String> undated() {
        return calibrated(calibration -> calibration.due().isEmpty());
    }

    private List<String> calibrated(Predicate<Calibration> how) {
        return inputs.stream()
                .filter(input -> input.calibration().filter(how).isPresent())
                .map(input -> input.signal().key())
                .toList();
    }

    /** Keys of the signals whose calibration does not say what is known of its span. */
    public List<String> withoutSpan() {
        return calibrated(calibration -> calibration.span().isEmpty());
    }

    /** The inputs whose calibration no longer holds on that day. */
    public List<Input> overdue(LocalDate day) {
        return inputs.stream()
                .filter(input -> input.calibration()
                        .filter(calibration -> !calibration.holdsOn(day))
                        .isPresent())
                .toList();
    }

    /** The same bench with other inputs. */
    public BenchFile withInputs(List<Input> others) {
        return new BenchFile(file, name, link, clockRateBound, points, others, outputs, streams, limits);
    }

    /** The same bench, reached another way. */
    public BenchFile reached(LinkChoice other) {
        return new BenchFile(file, name, other, clockRateBound, points, inputs, outputs, streams, limits);
    }

    /** Bound of the error in the stamp at which these outputs, by point, are said to have been driven, in µs. */
    public long drivenBoundUs(Map<String, Integer> counts) {
        long stampUs = points.stream()
                .filter(point -> counts.containsKey(point.name()))
                .mapToLong(Point::stampUs)
                .max()
                .orElse(0);
        return stampUs + link.driveDoubtUs(counts);
    }
}
