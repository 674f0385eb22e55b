package dev.lapwing.files;

import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.SafetyLimit;
import dev.lapwing.files.InputReader.Sampled;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.quantity.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads what readings may not leave while the bench is armed. */
final class LimitReader {
    private static final String LOWEST = "at-least";
    private static final String MOST = "at-most";

    private final Reading reading;
    private final Figures figures;
    private final InputReader inputs;
    private final List<SafetyLimit> limits = new ArrayList<>();

    LimitReader(Reading reading, InputReader inputs) {
        this.reading = reading;
        this.figures = new Figures(reading);
        this.inputs = inputs;
    }

    void read(Node node) {
        reading.entries(node, "a map from signals to their safety limits")
                .ifPresent(map -> map.entries().forEach(this::limit));
    }

    List<SafetyLimit> limits() {
        return limits;
    }

    private void limit(Entry entry) {
        Optional<Sampled> input = inputs.sampled(entry);
        Optional<Form> form = reading.form(entry.value(), Shapes.LIMIT);
        if (input.isEmpty() || form.isEmpty()) {
            return;
        }
        Optional<Integer> lowest = counts(form.get(), LOWEST, input.get());
        Optional<Integer> most = counts(form.get(), MOST, input.get());
        if (lowest.isPresent() && most.isPresent() && lowest.get() >= most.get()) {
            reading.mistake(form.get().place(MOST), "the upper limit is not above the lower one");
        }
        limits.add(new SafetyLimit(input.get().signal(), input.get().point().name(), lowest, most));
    }

    /** The count, rounded inwards. */
    private Optional<Integer> counts(Form form, String key, Sampled input) {
        Optional<Quantity> value = form.value(key)
                .flatMap(node -> figures.figure(node, input.signal().dimension()));
        if (value.isEmpty()) {
            return Optional.empty();
        }
        Calibration calibration = new Calibration(
                input.calibration().points().stream()
                        .map(pair -> new Calibration.Pair(
                                pair.left().base(), pair.right().base()))
                        .toList(),
                0,
                0,
                0,
                "",
                "",
                "");
        double exact = calibration.counts(value.get().base());
        double counts = key.equals(MOST) ? Math.floor(exact) : Math.ceil(exact);
        Point point = input.point();
        if (!(counts > point.min() && counts < point.max())) {
            String found = "the limit is at " + Math.round(counts) + " counts, which no reading of point '"
                    + point.name() + "' goes beyond";
            reading.mistake(
                    form.place(key), found, "above " + point.min() + " and below " + point.max() + " counts", "");
            return Optional.empty();
        }
        return Optional.of((int) counts);
    }
}
