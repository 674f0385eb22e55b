package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Point;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Unit;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;

/** Readings as people read them: values by the bench file's calibration, wires on or off. */
final class InputText {
    private static final int DECIMALS_MAX = 6;

    private final Map<String, Point> points = new HashMap<>();
    private final PressureDisplay pressures;

    InputText(BenchFile file, PressureDisplay pressures) {
        this.pressures = pressures;
        file.points().forEach(point -> points.put(point.name(), point));
    }

    /** What the input reads now. */
    String now(Input input, LiveReadings live) {
        if (input.signal().digital()) {
            return live.level(input.point()).map(on -> on ? "on" : "off").orElse("not told yet");
        }
        OptionalInt count = live.count(input.point());
        return count.isEmpty() ? "no sample yet" : value(input, count.getAsInt()) + end(input, count.getAsInt());
    }

    /** The value that a count, or a mean of counts, stands for. */
    String value(Input input, double counts) {
        return figure(input, input.calibration().orElseThrow().value(counts));
    }

    /** A value of the input's kind, in its base unit, with as many decimals as its resolution earns. */
    String figure(Input input, double base) {
        Calibration calibration = input.calibration().orElseThrow();
        Unit unit = pressures.unitFor(input.signal().dimension());
        double resolution = unit.fromBase(calibration.resolution());
        int decimals = 0;
        for (double step = 1; step > 10 * resolution && decimals < DECIMALS_MAX; step /= 10) {
            decimals++;
        }
        String figure = String.format(Locale.ROOT, "%." + decimals + "f", unit.fromBase(base));
        // What rounds to nothing has no sign.
        return (figure.matches("-0(\\.0*)?") ? figure.substring(1) : figure) + " " + unit.symbol();
    }

    /** True for a count that no transducer gives that is alive. */
    boolean atEnd(Input input, int count) {
        Point point = points.get(input.point());
        return point != null && (count <= point.min() || count >= point.max());
    }

    private String end(Input input, int count) {
        return atEnd(input, count) ? "  (" + count + " counts, the end of its range: dead or disconnected?)" : "";
    }
}
