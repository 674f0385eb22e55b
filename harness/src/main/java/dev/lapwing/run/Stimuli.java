package dev.lapwing.run;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.naming.Actuator;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;

/** Turns what a step drives into counts of the bench's outputs. */
final class Stimuli {
    private final BenchFile file;
    private final Map<String, Output> outputs = new HashMap<>();
    private final Map<String, Point> points = new HashMap<>();

    Stimuli(BenchFile file) {
        this.file = file;
        file.outputs().forEach(output -> outputs.put(output.actuator().key(), output));
        file.points().forEach(point -> points.put(point.name(), point));
    }

    /** By actuator key, for the record. */
    static Map<String, Double> byKey(Map<Actuator, Double> values) {
        Map<String, Double> keyed = new TreeMap<>();
        values.forEach((actuator, value) -> keyed.put(actuator.key(), value));
        return keyed;
    }

    /**
     * By point, what is to be put out.
     *
     * @throws BenchFailure if the bench has no output for an actuator, or it does not reach that far
     */
    Map<String, Integer> counts(Map<Actuator, Double> values) throws BenchFailure {
        Map<String, Integer> counts = new TreeMap<>();
        for (Map.Entry<Actuator, Double> entry : values.entrySet()) {
            Output output = outputs.get(entry.getKey().key());
            if (output == null) {
                throw new BenchFailure("bench '" + file.name() + "' drives no '"
                        + entry.getKey().key() + "'; name an output for it in " + file.file());
            }
            counts.put(output.point(), counts(output, entry.getValue()));
        }
        return counts;
    }

    /**
     * Bound of the error in the stamp at which they were driven, in µs.
     *
     * @throws BenchFailure as {@link #counts}
     */
    long boundUs(Map<Actuator, Double> values) throws BenchFailure {
        return file.drivenBoundUs(counts(values));
    }

    private int counts(Output output, double value) throws BenchFailure {
        Point point = points.get(output.point());
        double exact = output.zero() + value * output.countsPerUnit();
        // Half a count beyond the end still rounds into the range; written so that NaN is refused too.
        if (point == null || !(exact >= point.min() - 0.5 && exact <= point.max() + 0.5)) {
            throw new BenchFailure(output.place() + ": '" + output.actuator().key() + "' cannot be driven to "
                    + written(output.actuator().dimension(), value) + ": point '" + output.point() + "' of bench '"
                    + file.name() + "' does not reach that far");
        }
        return Math.max(point.min(), Math.min(point.max(), output.counts(value)));
    }

    private static String written(Dimension dimension, double value) {
        return Double.isFinite(value)
                ? new Quantity(value, dimension).print(Unit.of(dimension).get(0), 5)
                : Double.toString(value);
    }
}
