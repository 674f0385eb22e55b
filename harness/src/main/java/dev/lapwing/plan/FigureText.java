package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Acceptance;
import dev.lapwing.fixture.Figure;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.Operand;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.EnumSet;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/** Figures as people read them. A name that means nothing is shown as it is written. */
record FigureText(Acceptance acceptance, PressureDisplay pressures) {

    private static final Set<Dimension> PRESSURES =
            EnumSet.of(Dimension.PRESSURE, Dimension.PRESSURE_RATE, Dimension.LEAK_RATE);
    private static final int DIGITS = 4;
    private static final int DIGITS_IN_IDS = 6;

    /** With its unit; pressures in the reader's. */
    String quantity(double base, Dimension dimension) {
        return PRESSURES.contains(dimension)
                ? pressures.written(base, dimension)
                : shortest(new Quantity(base, dimension), DIGITS);
    }

    /** As it stands in ids and names, whatever the reader's units: the shortest way of writing it. */
    static String inId(Operand operand) {
        if (operand instanceof Operand.Written written) {
            Quantity quantity = written.quantity();
            return quantity.dimension() == Dimension.COUNT
                    ? shortest(quantity, DIGITS_IN_IDS).replaceAll(" .*", "")
                    : shortest(quantity, DIGITS_IN_IDS);
        }
        return name(operand);
    }

    /** The words for a kind of quantity: {@code a pressure}. */
    static String kind(Dimension dimension) {
        return dimension.example().replaceAll(" such as .*", "");
    }

    /** A plain value. */
    String value(Operand operand, Scope scope) {
        Operand meant = scope.meant(operand).orElse(operand);
        if (meant instanceof Operand.Written written) {
            return quantity(written.quantity().base(), written.quantity().dimension());
        }
        return figure(meant)
                .map(figure -> figure.isLimit()
                        ? figure.name()
                        : quantity(figure.value().getAsDouble(), figure.dimension()))
                .orElse(name(meant));
    }

    /** A limit that a level stands at: {@code between 69 psi and 71.5 psi (charged-band)}. */
    String standing(Operand operand, Scope scope) {
        return limit(operand, scope, "at or above ", "at or below ", true);
    }

    /** A limit of a difference or a number: {@code at most 2 psi (step)}, {@code within ± 2 psi (tolerance)}. */
    String amount(Operand operand, Scope scope) {
        return limit(operand, scope, "at least ", "at most ", true);
    }

    /** A limit in time: {@code within 3 s (ep-rise-time)}. */
    String time(Operand operand, Scope scope) {
        return limit(operand, scope, "not before ", "within ", false);
    }

    /** A time that something is watched at most: a plain one, or the upper end of a limit. */
    String patience(Operand operand, Scope scope) {
        Optional<Figure> limit = scope.meant(operand)
                .flatMap(this::figure)
                .filter(figure -> figure.isLimit() && figure.upper().isPresent());
        return limit.map(figure ->
                        quantity(figure.upper().getAsDouble(), figure.dimension()) + " (" + figure.name() + ")")
                .orElseGet(() -> value(operand, scope));
    }

    /** A change: {@code rises by at least 2 psi (step-up)}. */
    String change(Operand operand, Scope scope) {
        Optional<Figure> figure = scope.meant(operand).flatMap(this::figure);
        OptionalDouble lower = figure.map(Figure::lower).orElse(OptionalDouble.empty());
        OptionalDouble upper = figure.map(Figure::upper).orElse(OptionalDouble.empty());
        if (lower.isPresent() && lower.getAsDouble() > 0 && upper.isEmpty()) {
            return "rises by " + amount(operand, scope);
        }
        if (upper.isPresent() && upper.getAsDouble() < 0 && lower.isEmpty()) {
            Figure fall = figure.get();
            return "falls by at least " + quantity(-upper.getAsDouble(), fall.dimension()) + " (" + fall.name() + ")";
        }
        return "changes by " + amount(operand, scope).replaceFirst("^within ± (\\S+ \\S+)", "at most $1 either way");
    }

    /** Both ends of a limit without its name, for messages. */
    String ends(OptionalDouble lower, OptionalDouble upper, Dimension dimension) {
        return ends(lower, upper, dimension, "at least ", "at most ", false);
    }

    String ends(Limit limit) {
        return ends(limit.lower(), limit.upper(), limit.dimension());
    }

    /** The acceptance figure that an operand names. */
    Optional<Figure> figure(Operand operand) {
        return operand instanceof Operand.Named named
                ? Optional.ofNullable(acceptance.figures().get(named.figure()))
                : Optional.empty();
    }

    private String limit(Operand operand, Scope scope, String atLeast, String atMost, boolean evenly) {
        Operand meant = scope.meant(operand).orElse(operand);
        Optional<Figure> figure = figure(meant).filter(Figure::isLimit);
        if (figure.isEmpty()) {
            return atMost + value(meant, scope);
        }
        Figure limit = figure.get();
        return ends(limit.lower(), limit.upper(), limit.dimension(), atLeast, atMost, evenly) + " (" + limit.name()
                + ")";
    }

    private String ends(
            OptionalDouble lower,
            OptionalDouble upper,
            Dimension dimension,
            String atLeast,
            String atMost,
            boolean evenly) {
        if (lower.isEmpty()) {
            return atMost + quantity(upper.orElseThrow(), dimension);
        }
        if (upper.isEmpty()) {
            return atLeast + quantity(lower.getAsDouble(), dimension);
        }
        double low = lower.getAsDouble();
        double high = upper.getAsDouble();
        return evenly && low == -high
                ? "within ± " + quantity(high, dimension)
                : "between " + quantity(low, dimension) + " and " + quantity(high, dimension);
    }

    private static String name(Operand operand) {
        if (operand instanceof Operand.Named named) {
            return named.figure();
        }
        return operand instanceof Operand.Variable variable ? "<" + variable.name() + ">" : "";
    }

    /** In the unit that takes few digits, with neither a leading nought nor thousands: {@code 250 ms}, {@code 12 s}. */
    private static String shortest(Quantity quantity, int digits) {
        Unit best = null;
        int fewest = Integer.MAX_VALUE;
        for (Unit unit : Unit.of(quantity.dimension())) {
            int cost = 4 * digitsOf(quantity.in(unit), digits)
                    + (readable(Math.abs(quantity.in(unit))) ? 0 : 9)
                    + (unit.toBase(1) == 1 ? 0 : 1);
            if (cost < fewest && unit != Unit.PASCAL && !waveAsTrain(quantity, unit)) {
                best = unit;
                fewest = cost;
            }
        }
        return quantity.print(Objects.requireNonNull(best), digits);
    }

    /** No train goes faster than 150 m/s; what does is a wave, and those are told in m/s. */
    private static boolean waveAsTrain(Quantity quantity, Unit unit) {
        return unit == Unit.KILOMETRE_AN_HOUR && Math.abs(quantity.base()) > 150;
    }

    private static int digitsOf(double figure, int digits) {
        return figure == 0
                ? 1
                : new BigDecimal(figure)
                        .round(new MathContext(digits, RoundingMode.HALF_EVEN))
                        .stripTrailingZeros()
                        .precision();
    }

    private static boolean readable(double figure) {
        return figure == 0 || (figure >= 1 && figure < 1000);
    }
}
