package dev.lapwing.files;

import dev.lapwing.bench.Calibration;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.files.Pairs.Pair;
import dev.lapwing.files.Pairs.Side;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;

/** Reads calibrations, each by its name. */
final class CalibrationReader {
    private static final Side COUNTS = Side.of(Dimension.CONVERTER_COUNT);
    /** A value of any kind; the first settles which. */
    private static final Side ANY = new Side(new Range(0, 0));

    /** Figures of two digits may be off by so much, both ways. */
    private static final double ROUNDED = 1.1;

    private final Reading reading;
    private final boolean real;
    private final Figures figures;
    private final Pairs pairs;
    private final Map<String, Named> named = new LinkedHashMap<>();
    private boolean complete = true;

    /** A calibration, what it is of, and its points as written. */
    record Named(Dimension dimension, List<Pair> points, Supplier<Calibration> calibration) {}

    /** @param real whether what is calibrated is a real thing, and not simulated in this program */
    CalibrationReader(Reading reading, boolean real) {
        this.reading = reading;
        this.real = real;
        this.figures = new Figures(reading);
        this.pairs = new Pairs(reading);
    }

    void read(Node node) {
        reading.entries(node, "a map from names to calibrations")
                .ifPresentOrElse(map -> map.entries().forEach(this::calibration), () -> complete = false);
    }

    /** The calibration of that name; empty, with a mistake, if there is none. */
    Optional<Named> find(Node node) {
        Optional<String> name = reading.text(node, "the name of a calibration");
        if (name.isPresent() && !named.containsKey(name.get()) && complete) {
            reading.unknown(node.place(), "calibration", name.get(), named.keySet());
        }
        return name.map(named::get);
    }

    private void calibration(Entry entry) {
        reading.checkName(entry.key(), entry.place(), "a name such as 'pipe-transducer'");
        Optional<Form> form = reading.form(entry.value(), Shapes.CALIBRATION);
        Optional<List<Pair>> points = form.flatMap(f -> f.value("points"))
                .flatMap(n -> pairs.pairs(n, COUNTS, ANY, "a list of pairs such as [0 counts, 0 psi]"));
        Optional<Dimension> dimension = points.flatMap(this::dimension);
        if (form.isEmpty() || points.isEmpty() || dimension.isEmpty()) {
            complete = false;
            return;
        }
        checkRising(points.get());
        double span = span(points.get());
        Optional<Double> standard = doubt(form.get(), "uncertainty", dimension.get(), span);
        Optional<Double> drift = doubt(form.get(), "drift", dimension.get(), span);
        Optional<Double> ends = doubt(form.get(), "span", dimension.get(), 2 * span);
        checkSpan(form.get(), dimension.get(), standard, drift, ends);
        checkDoubted(form.get(), "uncertainty", standard, "write half of what the certificate gives for k = 2");
        checkDoubted(form.get(), "span", ends, "leave 'span' out if nothing is known of it");
        double noise = doubt(form.get(), "noise", dimension.get(), span).orElse(0.0);
        Optional<LocalDate> date = date(form.get(), "date");
        Optional<LocalDate> due = date(form.get(), "due");
        checkDue(form.get(), date, due);
        String certificate = form.get().text("certificate", "the certificate or reference that it rests on");
        // For who reads the file: no figure rests on it.
        form.get().text("operator", "the name of who calibrated");
        Supplier<Calibration> made = () -> new Calibration(
                points.get().stream()
                        .map(pair -> new Calibration.Pair(
                                pair.left().base(), pair.right().base()))
                        .toList(),
                standard.orElse(0.0),
                drift.orElse(0.0),
                ends.map(OptionalDouble::of).orElse(OptionalDouble.empty()),
                noise,
                date.orElseThrow().toString(),
                due.map(LocalDate::toString).orElse(""),
                certificate);
        named.put(entry.key(), new Named(dimension.get(), points.get(), made));
    }

    /** The kind of all values; empty, with a mistake, if they are of several. */
    private Optional<Dimension> dimension(List<Pair> points) {
        Dimension first = points.get(0).right().dimension();
        for (Pair pair : points) {
            if (pair.right().dimension() != first) {
                String found = "this value is " + Figures.kind(pair.right().dimension());
                reading.mistake(pair.rightPlace(), found, first.example(), "");
                return Optional.empty();
            }
        }
        return Optional.of(first);
    }

    private void checkRising(List<Pair> points) {
        for (int i = 1; i < points.size(); i++) {
            Pair before = points.get(i - 1);
            Pair pair = points.get(i);
            if (pair.left().base() <= before.left().base()) {
                reading.mistake(pair.place(), "the count is not above that before it", "counts that rise", "");
            } else if (pair.right().base() <= before.right().base()) {
                reading.mistake(pair.rightPlace(), "the value is not above that before it", "values that rise", "");
            }
        }
    }

    private static double span(List<Pair> points) {
        return Math.abs(points.get(points.size() - 1).right().base()
                - points.get(0).right().base());
    }

    /** A standard uncertainty: not negative, and less than the calibrated range. */
    private Optional<Double> doubt(Form form, String key, Dimension dimension, double span) {
        return form.value(key)
                .flatMap(n -> figures.figure(n, new Range(0, span), dimension))
                .map(Quantity::base);
    }

    /** Nothing real is known without doubt, neither a value nor the difference of two. */
    private void checkDoubted(Form form, String key, Optional<Double> stated, String mend) {
        if (real && stated.filter(doubt -> doubt == 0).isPresent()) {
            String written = form.text(key, "a standard uncertainty");
            String found = "'" + key + "' is " + Quoted.of(written) + ", but no real channel is known without doubt";
            reading.mistake(form.place(key), found, "more than " + written + ", at k = 1", mend);
        }
    }

    private void checkDue(Form form, Optional<LocalDate> date, Optional<LocalDate> due) {
        if (date.isPresent() && due.isPresent() && !due.get().isAfter(date.get())) {
            String found = "the calibration is due on " + due.get() + ", no later than it was made";
            reading.mistake(form.place("due"), found, "a day after " + date.get(), "");
        }
    }

    /** Where every value is as good as stated, the difference of two has a bound. */
    private void checkSpan(
            Form form,
            Dimension dimension,
            Optional<Double> standard,
            Optional<Double> drift,
            Optional<Double> stated) {
        if (standard.isEmpty() || drift.isEmpty() || stated.isEmpty()) {
            return;
        }
        double greatest = Calibration.greatestSpan(standard.get(), drift.get());
        if (stated.get() <= ROUNDED * greatest) {
            return;
        }
        String written = form.text("span", dimension.example());
        reading.mistake(
                form.place("span"),
                "a span of " + Quoted.of(written) + " is worse than 'uncertainty' and 'drift' at both ends come to",
                figures.between(written, dimension, new Range(0, greatest)),
                "leave 'span' out if nothing is known of it");
    }

    private Optional<LocalDate> date(Form form, String key) {
        String expected = "a date such as '2026-10-01'";
        return form.value(key).flatMap(n -> reading.scalar(n, expected)).flatMap(scalar -> {
            try {
                return Optional.of(LocalDate.parse(scalar.text()));
            } catch (DateTimeParseException e) {
                reading.mistake(scalar.place(), Quoted.of(scalar.text()) + " is no date", expected, "");
                return Optional.empty();
            }
        });
    }
}
