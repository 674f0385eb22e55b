package dev.lapwing.files;

import dev.lapwing.files.Node.Entry;
import dev.lapwing.files.Pairs.Pair;
import dev.lapwing.files.Pairs.Side;
import dev.lapwing.fixture.Curve;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Polyline;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/** Reads a fixture's curves: between which lines a signal stays over the time after a stimulus. */
final class CurveReader {
    private static final Side TIMES = new Side(Operands.STEP_TIME, Dimension.TIME);
    private static final Side LEVELS = Side.of(Dimension.PRESSURE);

    private final Reading reading;
    private final Pairs pairs;

    CurveReader(Reading reading) {
        this.reading = reading;
        this.pairs = new Pairs(reading);
    }

    /** Those of an acceptance block, which may have none. */
    Map<String, Supplier<Curve>> curves(Form acceptance) {
        Map<String, Supplier<Curve>> curves = new LinkedHashMap<>();
        acceptance
                .value("curves")
                .flatMap(node -> reading.entries(node, "a map from names to curves"))
                .ifPresent(map -> map.entries().forEach(entry -> curves.put(entry.key(), curve(entry))));
        return curves;
    }

    private Supplier<Curve> curve(Entry entry) {
        reading.checkName(entry.key(), entry.place(), "a name such as 'ep-filling'");
        Optional<Form> read = reading.form(entry.value(), Shapes.CURVE);
        if (read.isEmpty()) {
            return Loaded.never();
        }
        Form form = read.get();
        if (!form.has("lower") && !form.has("upper")) {
            reading.mistake(
                    entry.place(), "curve '" + entry.key() + "' states nothing", "'lower', 'upper' or both", "");
            return Loaded.never();
        }
        String source = form.text("source", "standard and clause, drawing, or 'common practice, no source'");
        Optional<Polyline> lower = line(form, "lower");
        Optional<Polyline> upper = line(form, "upper");
        checkApart(form, lower, upper);
        boolean whole = lower.isPresent() == form.has("lower") && upper.isPresent() == form.has("upper");
        return whole
                ? () -> new Curve(entry.key(), entry.place(), Dimension.PRESSURE, lower, upper, source)
                : Loaded.never();
    }

    private Optional<Polyline> line(Form form, String key) {
        Optional<List<Pair>> points =
                form.value(key).flatMap(n -> pairs.pairs(n, TIMES, LEVELS, "a list of pairs such as [0.6 s, 5 psi]"));
        boolean rising = true;
        for (int i = 1; i < points.map(List::size).orElse(0); i++) {
            Pair pair = points.orElseThrow().get(i);
            if (pair.left().base() <= points.get().get(i - 1).left().base()) {
                reading.mistake(pair.place(), "the time is not after that before it", "times that rise", "");
                rising = false;
            }
        }
        return rising ? points.map(CurveReader::line) : Optional.empty();
    }

    private static Polyline line(List<Pair> points) {
        return new Polyline(points.stream()
                .map(pair -> new Polyline.Point(pair.left().base(), pair.right().base()))
                .toList());
    }

    /** Where both hold there is room between them. */
    private void checkApart(Form form, Optional<Polyline> lower, Optional<Polyline> upper) {
        if (lower.isEmpty() || upper.isEmpty()) {
            return;
        }
        for (Polyline line : List.of(lower.get(), upper.get())) {
            for (Polyline.Point point : line.points()) {
                double at = point.x();
                if (lower.get().covers(at)
                        && upper.get().covers(at)
                        && lower.get().at(at) >= upper.get().at(at)) {
                    reading.mistake(
                            form.place("lower"),
                            "the lower curve is not below the upper one at " + at + " s",
                            "room between them",
                            "");
                    return;
                }
            }
        }
    }
}
