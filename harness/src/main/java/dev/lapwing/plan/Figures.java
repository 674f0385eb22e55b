package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Figure;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Operand;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Turns operands into figures. Where one is mistaken a stand-in (NaN) is returned, so that the rest is checked as well:
 * no comparison with it is true, and nothing resolved with a mistake leaves the resolver.
 */
final class Figures {

    private static final double DAY = 86_400;

    private final Subject subject;
    private final FigureText text;
    private final Mistakes mistakes;

    Figures(Subject subject, FigureText text, Mistakes mistakes) {
        this.subject = subject;
        this.text = text;
        this.mistakes = mistakes;
    }

    FigureText text() {
        return text;
    }

    /** A plain value in the base unit; shares of the nominal supply become volts where volts are due. */
    double value(Operand operand, Scope scope, Dimension due) {
        Optional<Operand> meant = meant(operand, scope);
        if (meant.isEmpty()) {
            return Double.NaN;
        }
        if (meant.get() instanceof Operand.Written written) {
            return inBase(written.quantity().base(), written.quantity().dimension(), due, operand);
        }
        Optional<Figure> figure = figure(meant.get(), operand, false, due);
        if (figure.isEmpty()) {
            return Double.NaN;
        }
        if (figure.get().isLimit()) {
            mistakes.add(
                    operand.place(),
                    described(figure.get()) + " is a limit (" + ends(figure.get()) + ")",
                    "a plain value",
                    "write it out, " + due.example() + others(due, false));
            return Double.NaN;
        }
        return inBase(figure.get().value().getAsDouble(), figure.get().dimension(), due, operand);
    }

    /** A time in s: not negative, a day at most. */
    double seconds(Operand operand, Scope scope) {
        double seconds = value(operand, scope, Dimension.TIME);
        if (seconds < 0 || seconds > DAY) {
            mistakes.add(
                    operand.place(),
                    "a time of " + text.quantity(seconds, Dimension.TIME),
                    "between 0 s and a day",
                    "");
        }
        return seconds;
    }

    /** A time over which something is averaged or watched: longer than nothing. */
    double stretch(Operand operand, Scope scope) {
        double seconds = seconds(operand, scope);
        if (seconds == 0) {
            mistakes.add(operand.place(), "a time of 0 s to watch over", "a time longer than that", "");
        }
        return seconds;
    }

    /** How long to watch at most: a time, or the upper end of a limit in time. */
    double patience(Operand operand, Scope scope) {
        Optional<Figure> limit = scope.meant(operand).flatMap(text::figure).filter(Figure::isLimit);
        if (limit.isPresent()
                && limit.get().dimension() == Dimension.TIME
                && limit.get().upper().isPresent()) {
            return limit.get().upper().getAsDouble();
        }
        return stretch(operand, scope);
    }

    /** A limit of one of the kinds that are due. */
    Limit limit(Operand operand, Scope scope, Dimension... due) {
        Optional<Operand> meant = meant(operand, scope);
        if (meant.isEmpty()) {
            return standIn(due[0]);
        }
        if (meant.get() instanceof Operand.Written written) {
            mistakes.add(
                    operand.place(),
                    "a limit is written out here, "
                            + text.quantity(
                                    written.quantity().base(),
                                    written.quantity().dimension()),
                    "the name of an acceptance figure, so that the sequence serves any unit",
                    named(true, due));
            return standIn(due[0]);
        }
        Optional<Figure> figure = figure(meant.get(), operand, true, due);
        if (figure.isEmpty()) {
            return standIn(due[0]);
        }
        if (!figure.get().isLimit()) {
            mistakes.add(
                    operand.place(),
                    described(figure.get()) + " is a plain value ("
                            + text.quantity(
                                    figure.get().value().getAsDouble(),
                                    figure.get().dimension()) + ")",
                    "a limit: at-most, at-least or between",
                    named(true, due));
            return standIn(due[0]);
        }
        return fits(figure.get().dimension(), due)
                ? limit(figure.get())
                : wrongKind(described(figure.get()), figure.get().dimension(), operand, due);
    }

    /** As {@link #limit}, with both ends: one end alone would pass a level that never moved. */
    Limit tolerance(Operand operand, Scope scope, Dimension due) {
        Limit limit = limit(operand, scope, due);
        if (!Double.isNaN(limit.margin(0))
                && (limit.lower().isEmpty() || limit.upper().isEmpty())) {
            mistakes.add(
                    operand.place(),
                    "tolerance '" + limit.figure() + "' (" + limit.place() + ") has one end, " + text.ends(limit),
                    "both ends, as a level far on the other side would pass otherwise",
                    "write it as between: [-2 psi, 2 psi]");
        }
        return limit;
    }

    /** A figure as a limit; a plain value stands as one of at most that. Counts are exact, and volts stand for Un. */
    Limit limit(Figure figure) {
        double factor =
                figure.dimension() == Dimension.NOMINAL_SHARE ? subject.wiring().nominalVolts() : 1;
        Dimension dimension = figure.dimension() == Dimension.NOMINAL_SHARE ? Dimension.VOLTAGE : figure.dimension();
        return new Limit(
                figure.name(),
                dimension,
                times(figure.lower(), factor),
                times(figure.value().isPresent() ? figure.value() : figure.upper(), factor),
                dimension == Dimension.COUNT ? DecisionRule.SIMPLE : figure.rule(),
                times(figure.largestUncertainty(), factor),
                figure.source(),
                figure.place().toString());
    }

    /** What must never happen, not once. */
    static Limit never(Place place) {
        return new Limit(
                "never",
                Dimension.COUNT,
                OptionalDouble.empty(),
                OptionalDouble.of(0),
                DecisionRule.SIMPLE,
                OptionalDouble.empty(),
                "the sequence itself: not once",
                place.toString());
    }

    /** That a condition holds at all: its margin is not below 0. */
    static Limit holdsAtAll(Dimension dimension, Place place) {
        return new Limit(
                "holds",
                dimension,
                OptionalDouble.of(0),
                OptionalDouble.empty(),
                DecisionRule.GUARDED,
                OptionalDouble.empty(),
                "the sequence itself: it holds",
                place.toString());
    }

    /** What a variable stands for; anything else stands for itself. Empty after a mistake. */
    Optional<Operand> meant(Operand operand, Scope scope) {
        Optional<Operand> meant = scope.meant(operand);
        if (meant.isEmpty() && operand instanceof Operand.Variable variable) {
            mistakes.add(
                    operand.place(),
                    "<" + variable.name() + "> is the variable of no loop around this step",
                    scope.variables().isEmpty() ? "a for-each around it" : "",
                    NearestName.hint(variable.name(), scope.variables().keySet()));
        }
        return meant;
    }

    private Optional<Figure> figure(Operand named, Operand operand, boolean limit, Dimension... due) {
        Optional<Figure> figure = text.figure(named);
        if (figure.isEmpty() && named instanceof Operand.Named name) {
            String near = NearestName.hint(
                    name.figure(), subject.acceptance().figures().keySet());
            mistakes.add(
                    named.place(),
                    "fixture '" + subject.fixture() + "' has no acceptance figure '" + name.figure() + "'"
                            + usedAs(operand),
                    near.isEmpty() ? kinds(due) : "",
                    near.isEmpty() ? named(limit, due) : near);
        }
        return figure;
    }

    private double inBase(double base, Dimension dimension, Dimension due, Operand operand) {
        if (dimension == due) {
            return base;
        }
        if (dimension == Dimension.NOMINAL_SHARE && due == Dimension.VOLTAGE) {
            return base * subject.wiring().nominalVolts();
        }
        wrongKind("'" + text.quantity(base, dimension) + "'" + usedAs(operand), dimension, operand, due);
        return Double.NaN;
    }

    private Limit wrongKind(String what, Dimension dimension, Operand operand, Dimension... due) {
        mistakes.add(
                operand.place(),
                what + " is " + FigureText.kind(dimension),
                due.length == 1 ? due[0].example() : kinds(due),
                "");
        return standIn(due[0]);
    }

    private static boolean fits(Dimension dimension, Dimension... due) {
        for (Dimension one : due) {
            if (one == dimension || (one == Dimension.VOLTAGE && dimension == Dimension.NOMINAL_SHARE)) {
                return true;
            }
        }
        return false;
    }

    private static String kinds(Dimension... due) {
        return String.join(" or ", List.of(due).stream().map(FigureText::kind).toList());
    }

    private String named(boolean limit, Dimension... due) {
        List<String> names = names(limit, due);
        return names.isEmpty() ? "" : "the fixture has " + String.join(", ", names);
    }

    private String others(Dimension due, boolean limit) {
        List<String> names = names(limit, due);
        return names.isEmpty() ? "" : ", or name a plain value: " + String.join(", ", names);
    }

    private List<String> names(boolean limit, Dimension... due) {
        return subject.acceptance().figures().values().stream()
                .filter(figure -> figure.isLimit() == limit && fits(figure.dimension(), due))
                .map(Figure::name)
                .sorted()
                .limit(8)
                .toList();
    }

    private static String usedAs(Operand operand) {
        return operand instanceof Operand.Variable variable
                ? ", used as <" + variable.name() + "> at " + operand.place()
                : "";
    }

    private String ends(Figure figure) {
        return text.ends(figure.lower(), figure.upper(), figure.dimension());
    }

    private static String described(Figure figure) {
        return "'" + figure.name() + "' (" + figure.place() + ")";
    }

    private static Limit standIn(Dimension dimension) {
        return new Limit(
                "",
                dimension,
                OptionalDouble.of(Double.NaN),
                OptionalDouble.empty(),
                DecisionRule.SIMPLE,
                OptionalDouble.empty(),
                "",
                "");
    }

    private static OptionalDouble times(OptionalDouble figure, double factor) {
        return figure.isEmpty() ? figure : OptionalDouble.of(figure.getAsDouble() * factor);
    }
}
