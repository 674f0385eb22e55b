package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.files.NewCalibration;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.UnreadableQuantity;
import dev.lapwing.signal.ReferenceFit;
import dev.lapwing.signal.ReferenceReading;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Leads the operator through the calibration of one input, from the first reference value to the word that writes. */
final class CalibrationDialogue {
    private static final int DIGITS = 2;
    private static final int DEGREE_MAX = 3;
    /** So much of the old range may be left out without a word. */
    private static final double NARROWER = 0.1;

    private static final Function<String, Optional<String>> WORDS =
            typed -> Optional.of(typed).filter(words -> !words.isEmpty());

    private final BenchFile file;
    private final Input input;
    private final PressureDisplay pressures;
    private final Operator operator;
    private final InputText text;
    private final LocalDate today;

    CalibrationDialogue(BenchFile file, Input input, PressureDisplay pressures, Operator operator, LocalDate today) {
        this.file = file;
        this.input = input;
        this.pressures = pressures;
        this.operator = operator;
        this.text = new InputText(file, pressures);
        this.today = today;
    }

    /** The new calibration, confirmed; empty if the operator stops or does not confirm. */
    Optional<NewCalibration> on(Bench bench) throws BenchFailure {
        operator.say("Calibration of " + input.signal().spoken() + " ('"
                + input.signal().key() + "' on point '" + input.point()
                + "'). The bench stays safe: nothing is armed.");
        operator.say(
                "! Compressed air stores energy. Stay below what transducer, hoses and fittings are made for, vent");
        operator.say("  before you open anything, and let local codes and licensed practice come first.");
        Optional<List<ReferenceReading>> readings = new ReferenceRound(file, input, text, operator).on(bench);
        if (readings.isEmpty()) {
            return Optional.empty();
        }
        tellRange(readings.get());
        Operator.Meanwhile meanwhile = whileItGoesOn(bench);
        Optional<ReferenceFit> fit = fit(readings.get(), meanwhile);
        return fit.isEmpty() ? Optional.empty() : confirmed(fit.get(), meanwhile);
    }

    /** Once all readings are there the bench is wanted no more: they are not lost with it. */
    private Operator.Meanwhile whileItGoesOn(Bench bench) {
        AtomicBoolean gone = new AtomicBoolean();
        return () -> {
            if (!gone.get()) {
                try {
                    bench.advance(bench.nowUs() + 50_000, new LiveReadings());
                } catch (BenchFailure e) {
                    gone.set(true);
                    operator.say("");
                    operator.say("  " + e.getMessage() + ". The readings are taken; go on.");
                }
            }
        };
    }

    /** A calibration is one of the range that was applied, whatever was calibrated before. */
    private void tellRange(List<ReferenceReading> readings) {
        List<Calibration.Pair> old = input.calibration().orElseThrow().points();
        double oldLow = old.get(0).value();
        double oldHigh = old.get(old.size() - 1).value();
        double low =
                readings.stream().mapToDouble(ReferenceReading::value).min().orElseThrow();
        double high =
                readings.stream().mapToDouble(ReferenceReading::value).max().orElseThrow();
        if (Math.max(low - oldLow, oldHigh - high) > NARROWER * (oldHigh - oldLow)) {
            operator.say("! The readings reach from " + text.figure(input, low) + " to " + text.figure(input, high)
                    + ", the calibration in force from " + text.figure(input, oldLow) + " to "
                    + text.figure(input, oldHigh) + ". What will be read far beyond the new ends passes nothing.");
        }
    }

    private Optional<ReferenceFit> fit(List<ReferenceReading> readings, Operator.Meanwhile meanwhile)
            throws BenchFailure {
        Map<String, ReferenceFit> fits = fits(readings);
        operator.say("Residuals, as read less as applied:");
        for (int i = 0; i < readings.size(); i++) {
            int reading = i;
            operator.say("  at " + text.figure(input, readings.get(i).value()) + ": "
                    + fits.entrySet().stream()
                            .map(fit -> fit.getKey() + " "
                                    + doubt(fit.getValue().residuals().get(reading)))
                            .collect(Collectors.joining(", ")));
        }
        operator.say("Standard uncertainties that they leave (k = 1): "
                + fits.entrySet().stream()
                        .map(fit -> fit.getKey() + " " + doubt(fit.getValue().standard()))
                        .collect(Collectors.joining(", "))
                + ".");
        String names = fits.keySet().stream().map(name -> "'" + name + "'").collect(Collectors.joining(" or "));
        return asked(
                "Keep which, " + names + "?",
                "type " + names,
                meanwhile,
                answer -> Optional.ofNullable(fits.get(answer)));
    }

    /** Those that the readings bear, by the word that chooses each. */
    private Map<String, ReferenceFit> fits(List<ReferenceReading> readings) {
        Map<String, ReferenceFit> fits = new LinkedHashMap<>();
        fits.put("line", ReferenceFit.line(readings));
        for (int degree = 2; degree <= DEGREE_MAX; degree++) {
            Optional<String> wanting = ReferenceFit.wanting(readings, degree);
            if (wanting.isEmpty()) {
                fits.put("curve " + degree, ReferenceFit.polynomial(readings, degree));
            } else {
                operator.say("No curve of degree " + degree + ": " + wanting.get() + ".");
            }
        }
        fits.put("table", ReferenceFit.table(readings));
        return fits;
    }

    /** What only the operator knows of a calibration; {@code reference} in the base unit, k = 2. */
    private record Claims(double reference, String certificate, LocalDate due, String who) {}

    private Optional<Claims> claims(ReferenceFit fit, Operator.Meanwhile meanwhile) throws BenchFailure {
        Optional<Double> reference = asked(
                "Expanded uncertainty of the reference (k = 2), with its unit:",
                "write it above zero and below the calibrated range, as "
                        + input.signal().dimension().example(),
                meanwhile,
                typed -> positive(typed).filter(doubt -> doubt < fit.range()));
        Optional<String> certificate = reference.isEmpty()
                ? Optional.empty()
                : asked("Certificate or reference that it rests on:", "write its number or name", meanwhile, WORDS);
        LocalDate inAYear = today.plusYears(1);
        Optional<LocalDate> due = certificate.isEmpty()
                ? Optional.empty()
                : asked(
                        "Due again on (such as " + inAYear + "):",
                        "write a date after today, such as " + inAYear,
                        meanwhile,
                        this::dueDate);
        Optional<String> who = due.isEmpty() ? Optional.empty() : asked("Your name:", "write it", meanwhile, WORDS);
        return who.map(name -> new Claims(reference.get(), certificate.get(), due.get(), name));
    }

    private Optional<NewCalibration> confirmed(ReferenceFit fit, Operator.Meanwhile meanwhile) throws BenchFailure {
        Optional<Claims> claims = claims(fit, meanwhile);
        if (claims.isEmpty()) {
            return Optional.empty();
        }
        Estimate budget = new Estimate(
                0,
                input.signal().dimension(),
                List.of(
                        new Component("readings about the fit", fit.standard()),
                        new Component("reference", claims.get().reference() / 2),
                        new Component("resolution", fit.resolution()),
                        new Component("noise of the means", fit.meanNoise())));
        double greatest = Calibration.greatestSpan(
                budget.standardUncertainty(), input.calibration().orElseThrow().drift());
        double span = Math.min(greatest, span(fit, claims.get()));
        NewCalibration made = new NewCalibration(
                fit.knots().stream()
                        .map(knot -> new NewCalibration.Point(knot.counts(), knot.value()))
                        .toList(),
                pressures.unitFor(input.signal().dimension()),
                budget.standardUncertainty(),
                span,
                fit.noise(),
                today,
                claims.get().due(),
                claims.get().certificate(),
                claims.get().who());
        show(budget, made);
        if (2 * fit.bow() > greatest) {
            operator.say(
                    "! The fit leaves " + doubt(fit.bow()) + " between readings half of the range apart, more than the"
                            + " uncertainty gives to a difference there. Keep a curve or a table.");
        }
        return asked(
                "Type 'write' to put it into " + file.file() + ", 'stop' to leave all as it is:",
                "type 'write' or 'stop'",
                meanwhile,
                typed -> typed.equals("write") ? Optional.of(made) : Optional.empty());
    }

    /**
     * What the difference between both ends may have wrong, drift included: what the readings show; nothing of it known
     * of reference and drift, all that both may be off, opposite at both ends. A span gives half of its doubt to half
     * of the range, and a bow that the fit leaves is to have room there.
     */
    private double span(ReferenceFit fit, Claims claims) {
        double either = StrictMath.hypot(fit.resolution(), fit.meanNoise());
        double shown = StrictMath.hypot(Math.max(fit.span(), 2 * fit.bow()), Math.sqrt(2) * either);
        double drift = input.calibration().orElseThrow().drift();
        return StrictMath.hypot(shown, Calibration.greatestSpan(claims.reference() / 2, drift));
    }

    private void show(Estimate budget, NewCalibration made) {
        Calibration old = input.calibration().orElseThrow();
        operator.say("Standard uncertainties (k = 1):");
        budget.components().forEach(part -> operator.say("  " + part.source() + ": " + doubt(part.standard())));
        operator.say("  together: " + doubt(budget.standardUncertainty()));
        operator.say("  of the difference between both ends of the range, with the drift in the file: "
                + doubt(made.span()));
        operator.say("Old, of " + old.date() + " (" + old.certificate() + "), uncertainty " + doubt(old.standard())
                + ", noise " + doubt(old.noise()) + "; new, of " + made.date() + ", uncertainty "
                + doubt(made.standard()) + ", noise " + doubt(made.noise()) + ":");
        made.points()
                .forEach(point -> operator.say("  at " + Math.round(point.counts()) + " counts: old "
                        + text.figure(input, old.value(point.counts())) + ", new "
                        + text.figure(input, point.value())));
        operator.say("The drift in the file stays " + doubt(old.drift()) + ".");
    }

    /** Asks until the answer fits, and says what would; empty if the operator stops. */
    private <T> Optional<T> asked(
            String question, String fitting, Operator.Meanwhile meanwhile, Function<String, Optional<T>> reading)
            throws BenchFailure {
        while (true) {
            Optional<String> answer = operator.ask(question, meanwhile);
            if (answer.isEmpty()) {
                return Optional.empty();
            }
            Optional<T> read = reading.apply(answer.get());
            if (read.isPresent()) {
                return read;
            }
            operator.say("  '" + answer.get() + "' is no answer to that; " + fitting + ".");
        }
    }

    private Optional<Double> positive(String typed) {
        try {
            Quantity quantity = Quantity.parse(typed);
            boolean good = quantity.dimension() == input.signal().dimension() && quantity.base() > 0;
            return good ? Optional.of(quantity.base()) : Optional.empty();
        } catch (UnreadableQuantity e) {
            return Optional.empty();
        }
    }

    private Optional<LocalDate> dueDate(String typed) {
        try {
            return Optional.of(LocalDate.parse(typed)).filter(date -> date.isAfter(today));
        } catch (DateTimeParseException e) {
            return Optional.empty();
        }
    }

    private String doubt(double base) {
        Dimension dimension = input.signal().dimension();
        return pressures.print(base, dimension, DIGITS);
    }
}
