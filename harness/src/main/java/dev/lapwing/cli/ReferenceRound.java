package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Point;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.UnreadableQuantity;
import dev.lapwing.report.Sentences;
import dev.lapwing.signal.ReferenceFit;
import dev.lapwing.signal.ReferenceReading;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The operator applies one known value after the other; the bench's counts at each are averaged. Nothing is armed. */
final class ReferenceRound {
    private static final long GO_ON_US = 50_000;
    private static final long AVERAGED_US = 3_000_000;
    private static final int SAMPLES_MIN = 10;
    /** A calibration that is off by more than this share of its range is hardly that of this transducer. */
    private static final double FAR_SHARE = 0.05;
    /** A mean that moves by more than this share of the calibrated range within the time does not rest. */
    private static final double DRIFT_SHARE = 0.0002;
    /** So many standard deviations of the difference of two means are no drift. */
    private static final double DRIFT_TIMES = 5;

    private final Input input;
    private final Point point;
    private final InputText text;
    private final Operator operator;
    private final LiveReadings live = new LiveReadings();
    private final List<ReferenceReading> readings = new ArrayList<>();

    ReferenceRound(BenchFile file, Input input, InputText text, Operator operator) {
        this.input = input;
        this.point = file.points().stream()
                .filter(candidate -> candidate.name().equals(input.point()))
                .findFirst()
                .orElseThrow();
        this.text = text;
        this.operator = operator;
    }

    /** Readings that bear a calibration; empty if the operator stops. */
    Optional<List<ReferenceReading>> on(Bench bench) throws BenchFailure {
        bench.watch();
        while (true) {
            Optional<String> answer = operator.ask(
                    "Apply a known value, let it rest and type it with its unit; 'back' drops the last, 'done' fits:",
                    () -> goOn(bench));
            if (answer.isEmpty()) {
                return Optional.empty();
            }
            if (answer.get().equals("done")) {
                Optional<String> wanting = ReferenceFit.wanting(readings);
                if (wanting.isEmpty()) {
                    return Optional.of(List.copyOf(readings));
                }
                operator.say("  Not yet: " + wanting.get() + ".");
            } else if (answer.get().equals("back")) {
                operator.say(
                        readings.isEmpty()
                                ? "  There is none."
                                : "  Dropped "
                                        + text.figure(
                                                input,
                                                readings.remove(readings.size() - 1)
                                                        .value()) + ".");
            } else {
                take(bench, answer.get());
            }
        }
    }

    /** The value that was typed; empty, once it was said what would be one, if it is none. */
    private Optional<Double> applied(String typed) {
        String example = input.signal().dimension().example();
        try {
            Quantity quantity = Quantity.parse(typed);
            if (quantity.dimension() == input.signal().dimension()) {
                return Optional.of(quantity.base());
            }
            operator.say("  '" + typed + "' is of another kind; write " + example + ".");
        } catch (UnreadableQuantity e) {
            operator.say("  " + e.getMessage() + "; write " + example + ".");
        }
        return Optional.empty();
    }

    private void take(Bench bench, String typed) throws BenchFailure {
        Optional<Double> applied = applied(typed);
        if (applied.isEmpty()) {
            return;
        }
        double value = applied.get();
        live.gatherAfresh();
        long until = bench.nowUs() + AVERAGED_US;
        while (bench.nowUs() < until && !operator.stopped()) {
            goOn(bench);
        }
        CountSeries series = live.gathered(input.point());
        Optional<String> unfit = unfit(series);
        if (unfit.isPresent()) {
            operator.say("  Not taken: " + unfit.get() + ".");
            return;
        }
        readings.add(new ReferenceReading(value, series.mean(), series.deviation(), series.size()));
        double error = input.calibration().orElseThrow().value(series.mean()) - value;
        operator.say(String.format(
                Locale.ROOT,
                "  %s: %.2f counts, noise %.2f counts, %d samples; the calibration in force reads %s, off by %s",
                text.figure(input, value),
                series.mean(),
                series.deviation(),
                series.size(),
                text.value(input, series.mean()),
                text.figure(input, error)));
        List<Calibration.Pair> pairs = input.calibration().orElseThrow().points();
        double range = pairs.get(pairs.size() - 1).value() - pairs.get(0).value();
        if (Math.abs(error) > FAR_SHARE * range) {
            operator.say("  ! That is far off: look at the reference and at what was typed; 'back' drops it.");
        }
    }

    private Optional<String> unfit(CountSeries series) {
        if (live.losses() > 0) {
            return Optional.of("samples were lost on the link meanwhile; type it again");
        }
        if (series.size() < SAMPLES_MIN) {
            return Optional.of("only " + Sentences.count(series.size(), "sample") + " came");
        }
        if (series.mean() <= point.min() || series.mean() >= point.max()) {
            return Optional.of("the converter is at the end of its range; is the transducer connected?");
        }
        List<Calibration.Pair> pairs = input.calibration().orElseThrow().points();
        double span = pairs.get(pairs.size() - 1).counts() - pairs.get(0).counts();
        double most = Math.max(DRIFT_SHARE * span, DRIFT_TIMES * 2 * series.deviation() / Math.sqrt(series.size()));
        return Math.abs(series.drift()) > most
                ? Optional.of(String.format(
                        Locale.ROOT, "it still moves, by %.1f counts meanwhile; let it rest", series.drift()))
                : Optional.empty();
    }

    private void goOn(Bench bench) throws BenchFailure {
        bench.advance(bench.nowUs() + GO_ON_US, live);
        live.takeTroubles().forEach(trouble -> operator.say("  bench: " + trouble));
    }
}
