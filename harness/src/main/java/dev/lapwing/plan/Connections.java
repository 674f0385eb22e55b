package dev.lapwing.plan;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.Stream;
import dev.lapwing.finding.Limit;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** What the bench carries, drives, and can measure. */
final class Connections {

    private static final int SAMPLES_AT_LEAST = 5;

    private final BenchFile bench;
    private final FigureText text;
    private final Mistakes mistakes;

    Connections(BenchFile bench, FigureText text, Mistakes mistakes) {
        this.bench = bench;
        this.text = text;
        this.mistakes = mistakes;
    }

    boolean carries(Signal signal) {
        return input(signal).filter(this::measures).isPresent();
    }

    boolean drives(Actuator actuator) {
        return output(actuator).isPresent();
    }

    /** Whether any signal is read by two transducers. */
    boolean twins() {
        return bench.inputs().stream().anyMatch(input -> input.signal() instanceof Signal.Twin);
    }

    /** The signal must be carried, and sampled where it is not an edge. */
    void carried(Signal signal, Place place) {
        Optional<Input> input = input(signal);
        if (input.isEmpty()) {
            mistakes.add(
                    place,
                    "bench '" + bench.name() + "' does not read the " + signal.spoken() + " (" + signal.key() + ")",
                    "",
                    carriedOfThatKind(signal));
        } else if (!measures(input.get())) {
            mistakes.add(
                    place,
                    signal.spoken() + " is at point " + input.get().point() + " ("
                            + input.get().place() + "), which "
                            + (input.get().calibration().isEmpty() ? "has no calibration" : "no stream samples"),
                    "",
                    "add it to the bench file " + bench.file());
        }
    }

    /** The actuator must be wired, and the value within what its point can give. */
    void driven(Actuator actuator, double value, Place place) {
        Optional<Output> output = output(actuator);
        if (output.isEmpty()) {
            mistakes.add(
                    place, "bench '" + bench.name() + "' does not drive '" + actuator.key() + "'", "", near(actuator));
            return;
        }
        Optional<Point> point = point(output.get().point());
        if (point.isPresent() && !Double.isNaN(value)) {
            int counts = output.get().counts(value);
            if (counts < point.get().min() || counts > point.get().max()) {
                mistakes.add(
                        place,
                        actuator.key() + " at " + text.quantity(value, actuator.dimension()) + " is beyond what point "
                                + point.get().name() + " can give",
                        range(output.get(), point.get(), actuator),
                        "");
            }
        }
    }

    /** The actuator must be wired to a point that can take values between its ends. */
    void ramped(Actuator actuator, Place place) {
        output(actuator)
                .flatMap(output -> point(output.point()))
                .filter(point -> point.kind().digital())
                .ifPresent(point -> mistakes.add(
                        place,
                        "'" + actuator.key() + "' is at " + point.kind().text() + " point " + point.name()
                                + ", which knows only on and off",
                        "a step at once",
                        "leave out 'over'"));
    }

    /** A level must lie inside the transducer's calibrated range. */
    void measurable(Signal signal, double level, Place place) {
        calibration(signal).ifPresent(calibration -> {
            if (level < low(calibration) || level > high(calibration)) {
                outOfRange(signal, level, "", calibration, place);
            }
        });
    }

    /**
     * The ends of a limit around {@code target} must lie inside the calibrated range. A lower end below atmosphere is
     * taken as atmosphere, as no pressure here goes below.
     */
    void measurable(Signal signal, double target, Limit limit, Place place) {
        calibration(signal).ifPresent(calibration -> {
            double lower = target + limit.lower().orElse(Double.NaN);
            double least = signal.dimension() == Dimension.PRESSURE ? Math.max(0, lower) : lower;
            double upper = target + limit.upper().orElse(Double.NaN);
            for (double level : new double[] {least, upper}) {
                if (level < low(calibration) || level > high(calibration)) {
                    outOfRange(signal, level, " (" + limit.figure() + ")", calibration, place);
                }
            }
        });
    }

    /** A difference of two readings cannot exceed the width of the calibrated range. */
    void measurableDifference(Signal signal, Limit limit, Place place) {
        calibration(signal).ifPresent(calibration -> {
            double width = high(calibration) - low(calibration);
            for (OptionalDouble end : List.of(limit.lower(), limit.upper())) {
                if (Math.abs(end.orElse(Double.NaN)) > width) {
                    outOfRange(signal, end.getAsDouble(), " (" + limit.figure() + ")", calibration, place);
                }
            }
        });
    }

    /** A mean needs several samples of the signal. */
    void sampledOften(Signal signal, double overSeconds, Place place) {
        input(signal)
                .flatMap(input -> bench.streams().stream()
                        .filter(stream -> stream.points().contains(input.point()))
                        .min(Comparator.comparingLong(Stream::everyUs)))
                .filter(stream -> overSeconds < SAMPLES_AT_LEAST * stream.everyUs() * 1e-6)
                .ifPresent(stream -> mistakes.add(
                        place,
                        "a mean over " + text.quantity(overSeconds, Dimension.TIME) + " of " + signal.key()
                                + ", which the bench samples every "
                                + text.quantity(stream.everyUs() * 1e-6, Dimension.TIME),
                        "a mean over " + SAMPLES_AT_LEAST + " samples or more",
                        ""));
    }

    private void outOfRange(Signal signal, double level, String figure, Calibration calibration, Place place) {
        Dimension dimension = signal.dimension();
        mistakes.add(
                place,
                text.quantity(level, dimension) + figure + " is outside of what the transducer of " + signal.key()
                        + " is calibrated for",
                "between " + text.quantity(low(calibration), dimension) + " and "
                        + text.quantity(high(calibration), dimension),
                "certificate " + calibration.certificate() + ", " + bench.file());
    }

    private Optional<Calibration> calibration(Signal signal) {
        return input(signal).flatMap(Input::calibration);
    }

    private static double low(Calibration calibration) {
        return calibration.points().stream()
                .mapToDouble(Calibration.Pair::value)
                .min()
                .orElseThrow();
    }

    private static double high(Calibration calibration) {
        return calibration.points().stream()
                .mapToDouble(Calibration.Pair::value)
                .max()
                .orElseThrow();
    }

    private boolean measures(Input input) {
        return input.signal().digital()
                || (input.calibration().isPresent()
                        && bench.streams().stream()
                                .anyMatch(stream -> stream.points().contains(input.point())));
    }

    private Optional<Input> input(Signal signal) {
        return bench.inputs().stream()
                .filter(input -> input.signal().equals(signal))
                .findFirst();
    }

    private Optional<Output> output(Actuator actuator) {
        return bench.outputs().stream()
                .filter(output -> output.actuator().equals(actuator))
                .findFirst();
    }

    private Optional<Point> point(String name) {
        return bench.points().stream()
                .filter(point -> point.name().equals(name))
                .findFirst();
    }

    private String range(Output output, Point point, Actuator actuator) {
        double one = output.value(point.min());
        double other = output.value(point.max());
        return "between " + text.quantity(Math.min(one, other), actuator.dimension()) + " and "
                + text.quantity(Math.max(one, other), actuator.dimension());
    }

    private String carriedOfThatKind(Signal signal) {
        List<String> keys = bench.inputs().stream()
                .map(Input::signal)
                .filter(other -> kind(other).equals(kind(signal)))
                .map(Signal::key)
                .sorted()
                .toList();
        return keys.isEmpty() ? "it reads none of that kind" : "it reads " + String.join(", ", keys);
    }

    private static String kind(Signal signal) {
        return signal instanceof Signal.Pressure pressure
                ? pressure.kind().text()
                : signal.getClass().getSimpleName();
    }

    private String near(Actuator actuator) {
        List<String> keys = bench.outputs().stream()
                .map(output -> output.actuator().key())
                .sorted(Comparator.naturalOrder())
                .toList();
        String near = NearestName.hint(actuator.key(), keys);
        return near.isEmpty() ? "it drives " + String.join(", ", keys) : near;
    }
}
