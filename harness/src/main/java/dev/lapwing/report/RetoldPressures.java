package dev.lapwing.report;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.TwoDigits;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Sentences of a run with their pressures in the unit that this reader wants: a run tells them in its own. A figure
 * keeps what its uncertainty leaves of it, any other four digits; what is in that unit already stays to the letter. Not
 * for what people wrote, such as titles and sources: that is quoted as it stands.
 *
 * @param display the unit
 * @param known   what is told with its uncertainty: its digits are then those of the tables, not those of the sentence
 */
record RetoldPressures(PressureDisplay display, Optional<Estimate> known) implements UnaryOperator<String> {
    private static final String FIGURE = "(-?\\d+(?:\\.\\d+)?)";

    /** A figure, then what it is in doubt by to either side or to each: groups 3, or 4 above and 5 below. */
    private static final Pattern PRESSURE = Pattern.compile("(?<![\\w.-])" + FIGURE + " (" + units() + ")(?:" + " ± "
            + FIGURE + " \\2| \\+ " + FIGURE + " \\2 - " + FIGURE + " \\2)?(?! abs)(?![\\w/])");

    RetoldPressures(PressureDisplay display) {
        this(display, Optional.empty());
    }

    /** A run for that reader. */
    static WholeRun of(WholeRun run, PressureDisplay display) {
        return run.told(new RetoldPressures(display)::of, new RetoldPressures(display));
    }

    /** A record for that reader. */
    static RunRecord of(RunRecord record, PressureDisplay display) {
        return record.told(new RetoldPressures(display)::of, new RetoldPressures(display));
    }

    private Finding of(Finding finding) {
        return finding.told(new RetoldPressures(display, finding.measured()));
    }

    private static String units() {
        return Arrays.stream(Unit.values())
                .filter(unit -> isPressure(unit.dimension()))
                .map(Unit::symbol)
                .sorted(Comparator.comparing(String::length).reversed())
                .map(Pattern::quote)
                .collect(Collectors.joining("|"));
    }

    private static boolean isPressure(Dimension dimension) {
        return dimension == Dimension.PRESSURE
                || dimension == Dimension.PRESSURE_RATE
                || dimension == Dimension.LEAK_RATE;
    }

    @Override
    public String apply(String sentence) {
        return PRESSURE.matcher(sentence).replaceAll(found -> Matcher.quoteReplacement(retold(found)));
    }

    private String retold(MatchResult found) {
        Unit from = Unit.spelled(found.group(2)).orElseThrow();
        Unit to = display.unitFor(from.dimension());
        if (from == to) {
            return found.group();
        }
        Quantity figure = Quantity.of(Double.parseDouble(found.group(1)), from);
        if (found.group(3) != null) {
            if (known.filter(estimate -> isTold(estimate, found, from)).isPresent()) {
                TwoDigits digits = new TwoDigits(to);
                Estimate estimate = known.get();
                return digits.figure(estimate.value(), estimate) + " " + to.symbol() + " ± "
                        + digits.of(estimate.expanded()) + " " + to.symbol();
            }
            double doubt = base(found.group(3), from);
            return doubtful(figure, to, doubt) + " ± " + doubt(to, doubt);
        }
        if (found.group(4) != null) {
            double above = base(found.group(4), from);
            double below = base(found.group(5), from);
            return doubtful(figure, to, Math.min(above, below)) + " + " + doubt(to, above) + " - " + doubt(to, below);
        }
        return figure.written(to);
    }

    private static boolean isTold(Estimate estimate, MatchResult found, Unit unit) {
        TwoDigits digits = new TwoDigits(unit);
        return estimate.dimension() == unit.dimension()
                && digits.figure(estimate.value(), estimate).equals(found.group(1))
                && digits.of(estimate.expanded()).equals(found.group(3));
    }

    private static double base(String figure, Unit unit) {
        return unit.toBase(Double.parseDouble(figure));
    }

    private static String doubtful(Quantity figure, Unit unit, double doubt) {
        return new TwoDigits(unit).figure(figure.base(), doubt) + " " + unit.symbol();
    }

    private static String doubt(Unit unit, double doubt) {
        return new TwoDigits(unit).of(doubt) + " " + unit.symbol();
    }
}
