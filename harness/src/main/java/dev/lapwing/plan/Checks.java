package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Law;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.Optional;
import java.util.OptionalDouble;

/** Resolves an expectation into what is measured and what it is held against. */
final class Checks {

    /** How far before a stimulus a level is averaged at most, in s: what went before may still have been moving. */
    static final double BEFORE = 1;

    /** Over how long a level that need not stand still is averaged at most, in s: it is not smeared by much. */
    private static final double MOVING = 0.2;

    private final Lookup lookup;
    private final HandlePlace handle;
    private final RememberedNames remembered;
    private final Relations relations;
    private final Quantities quantities;

    Checks(Lookup lookup, HandlePlace handle, RememberedNames remembered) {
        this.lookup = lookup;
        this.handle = handle;
        this.remembered = remembered;
        this.relations = new Relations(lookup, remembered);
        this.quantities = new Quantities(lookup, remembered);
    }

    /**
     * The check.
     *
     * @param lasting true where there are steps around it for the time of which it may be watched
     */
    Check check(Expectation expectation, Scope scope, Place place, boolean lasting) {
        return level(expectation, scope, place)
                .or(() -> difference(expectation, scope, place))
                .or(() -> timed(expectation, scope))
                .or(() -> watched(expectation, scope, place, lasting))
                .or(() -> relations.check(expectation, scope, place))
                .or(() -> quantities.check(expectation, scope, place, lasting))
                .orElseThrow();
    }

    private Optional<Check> level(Expectation expectation, Scope scope, Place place) {
        if (expectation instanceof Expectation.SettlesAtLaw e) {
            return Optional.of(settlesAtLaw(e, scope, place));
        }
        if (expectation instanceof Expectation.SettlesAt e) {
            Signal signal = lookup.signals().level(e.signal(), scope);
            Limit limit = lookup.figures().limit(e.level(), scope, signal.dimension());
            lookup.connections().measurable(signal, 0, limit, e.level().place());
            return Optional.of(new Check.SettledLevel(
                    signal,
                    0,
                    seconds(e.settled(), scope),
                    lookup.averaged(signal, e.over(), scope),
                    remember(e.rememberAs(), signal, scope, place),
                    limit));
        }
        if (expectation instanceof Expectation.Holds e) {
            Signal signal = lookup.signals().level(e.signal(), scope);
            Limit limit = signal.dimension() == Dimension.PRESSURE
                    ? lookup.figures()
                            .limit(e.leak(), scope, Dimension.LEAK_RATE, Dimension.PRESSURE_RATE, Dimension.PRESSURE)
                    : lookup.figures().limit(e.leak(), scope, signal.dimension());
            if (limit.dimension() == signal.dimension()) {
                lookup.connections()
                        .measurableDifference(signal, limit, e.leak().place());
            }
            return Optional.of(new Check.Leak(
                    signal, seconds(e.settled(), scope), lookup.averaged(signal, e.over(), scope), limit));
        }
        return Optional.empty();
    }

    private Check settlesAtLaw(Expectation.SettlesAtLaw e, Scope scope, Place place) {
        Signal signal = lookup.signals().level(e.signal(), scope);
        if (signal.dimension() != Dimension.PRESSURE) {
            lookup.mistake(
                    e.signal().place(),
                    signal.spoken() + " is no pressure, and a law gives pressures",
                    "a pressure such as 'brake-cylinder at last'",
                    "");
        }
        Limit limit = lookup.figures().tolerance(e.tolerance(), scope, Dimension.PRESSURE);
        double target = law(e.law(), place);
        lookup.connections().measurable(signal, target, limit, e.tolerance().place());
        return new Check.SettledLevel(
                signal,
                target,
                seconds(e.settled(), scope),
                lookup.averaged(signal, e.over(), scope),
                remember(e.rememberAs(), signal, scope, place),
                limit);
    }

    private Optional<Check> difference(Expectation expectation, Scope scope, Place place) {
        if (expectation instanceof Expectation.Agrees e) {
            return Optional.of(agrees(e, scope));
        }
        if (expectation instanceof Expectation.Moves e) {
            Signal signal = lookup.signals().level(e.signal(), scope);
            double over = lookup.averaged(signal, e.over(), scope);
            return Optional.of(new Check.Movement(
                    signal,
                    Math.min(over, BEFORE),
                    seconds(e.settled(), scope),
                    over,
                    lookup.difference(signal, e.change(), scope)));
        }
        if (expectation instanceof Expectation.Repeats e) {
            Signal signal = lookup.signals().level(e.signal(), scope);
            Optional<String> name = remembered.recall(e.remembered(), scope);
            if (name.isEmpty()) {
                remembered.neverRemembered(e.remembered(), scope, place);
            }
            return Optional.of(new Check.Repeat(
                    signal,
                    name.orElse(e.remembered()),
                    seconds(e.settled(), scope),
                    lookup.averaged(signal, e.over(), scope),
                    lookup.difference(signal, e.difference(), scope)));
        }
        if (expectation instanceof Expectation.Changes e) {
            return Optional.of(changes(e, scope));
        }
        return Optional.empty();
    }

    private Check agrees(Expectation.Agrees e, Scope scope) {
        Signal signal = lookup.signals().level(e.signal(), scope);
        Signal with = lookup.signals().level(e.with(), scope);
        if (signal.dimension() != with.dimension()) {
            lookup.mistake(
                    e.with().place(),
                    signal.spoken() + " and " + with.spoken() + " cannot be compared",
                    "two signals of one kind",
                    "");
        } else if (signal.equals(with)) {
            lookup.mistake(e.with().place(), signal.spoken() + " is compared with itself", "another signal", "");
        }
        return new Check.Agreement(
                signal,
                with,
                seconds(e.settled(), scope),
                lookup.averaged(signal, e.over(), scope),
                lookup.difference(signal, e.difference(), scope));
    }

    private Check changes(Expectation.Changes e, Scope scope) {
        Signal signal = lookup.signals().level(e.signal(), scope);
        double from = seconds(e.from(), scope);
        double to = seconds(e.to(), scope);
        if (to <= from) {
            lookup.mistake(
                    e.to().place(),
                    "'to' (" + lookup.text().quantity(to, Dimension.TIME) + ") is not after 'from' ("
                            + lookup.text().quantity(from, Dimension.TIME) + ")",
                    "two times, the later one second",
                    "");
        }
        return new Check.Change(
                signal, from, to, Math.min(MOVING, (to - from) / 2), lookup.difference(signal, e.change(), scope));
    }

    private Optional<Check> timed(Expectation expectation, Scope scope) {
        if (expectation instanceof Expectation.RisesAbove e) {
            return Optional.of(crossing(lookup.signals().level(e.signal(), scope), true, e.level(), e.within(), scope));
        }
        if (expectation instanceof Expectation.FallsBelow e) {
            return Optional.of(
                    crossing(lookup.signals().level(e.signal(), scope), false, e.level(), e.within(), scope));
        }
        if (expectation instanceof Expectation.Switches e) {
            Limit limit = lookup.figures().limit(e.within(), scope, Dimension.TIME);
            return Optional.of(
                    new Check.WireSwitches(lookup.signals().wire(e.wire()), e.on(), Patience.of(limit), limit));
        }
        if (expectation instanceof Expectation.ComesBefore e) {
            return Optional.of(new Check.ComesBefore(
                    lookup.conditions().resolve(e.first(), scope),
                    lookup.conditions().resolve(e.then(), scope),
                    lookup.figures().patience(e.within(), scope),
                    inOrder(lookup.figures().limit(e.by(), scope, Dimension.TIME))));
        }
        return Optional.empty();
    }

    /** What comes before comes first: the wrong order is below the limit even where that has an upper end only. */
    private static Limit inOrder(Limit by) {
        return by.lower().isPresent()
                ? by
                : new Limit(
                        by.figure(),
                        by.dimension(),
                        OptionalDouble.of(0),
                        by.upper(),
                        by.rule(),
                        by.largestUncertainty(),
                        by.source(),
                        by.place());
    }

    private Check crossing(Signal signal, boolean rising, Operand level, Operand within, Scope scope) {
        double value = lookup.figures().value(level, scope, signal.dimension());
        lookup.connections().measurable(signal, value, level.place());
        Limit limit = lookup.time(signal, rising, within, scope);
        return new Check.Crossing(signal, rising, value, Patience.of(limit), limit);
    }

    private Optional<Check> watched(Expectation expectation, Scope scope, Place place, boolean lasting) {
        if (expectation instanceof Expectation.StaysBetween e) {
            Signal signal = lookup.signals().level(e.signal(), scope);
            Limit limit = lookup.figures().limit(e.band(), scope, signal.dimension());
            lookup.connections().measurable(signal, 0, limit, e.band().place());
            return Optional.of(new Check.Stays(signal, lookup.over(e.over(), scope, place, lasting), limit));
        }
        if (expectation instanceof Expectation.PulsesAtMost e) {
            return Optional.of(new Check.Pulses(
                    lookup.signals().wire(e.wire()),
                    lookup.over(e.over(), scope, place, lasting),
                    lookup.figures().limit(e.count(), scope, Dimension.COUNT)));
        }
        if (expectation instanceof Expectation.Never e) {
            return Optional.of(new Check.NeverHolds(
                    lookup.conditions().resolve(e.condition(), scope),
                    e.longerThan().map(time -> seconds(time, scope)).orElse(0.0),
                    lookup.over(e.over(), scope, place, lasting),
                    Figures.never(place)));
        }
        return temporal(expectation, scope, place, lasting);
    }

    private Optional<Check> temporal(Expectation expectation, Scope scope, Place place, boolean lasting) {
        Margins margins = new Margins(lookup);
        if (expectation instanceof Expectation.ComesTrue e) {
            PlannedCondition condition = lookup.conditions().resolveAhead(e.condition(), scope);
            return Optional.of(margins.check(condition, false, OptionalDouble.empty(), e.margin(), scope, place));
        }
        if (expectation instanceof Expectation.StaysTrue e) {
            PlannedCondition condition = lookup.conditions().resolveAhead(e.condition(), scope);
            return Optional.of(margins.check(
                    condition, true, lookup.over(e.over(), scope, place, lasting), e.margin(), scope, place));
        }
        return Optional.empty();
    }

    private double law(String name, Place place) {
        Law law = lookup.subject().acceptance().laws().get(name);
        if (law != null) {
            return handle.target(law, place);
        }
        var laws = lookup.subject().acceptance().laws().keySet();
        String near = NearestName.hint(name, laws);
        lookup.mistake(
                place,
                "fixture '" + lookup.subject().fixture() + "' has no law '" + name + "'",
                "",
                near.isEmpty()
                        ? "its laws are "
                                + String.join(", ", laws.stream().sorted().toList())
                        : near);
        return Double.NaN;
    }

    private Optional<String> remember(Optional<String> name, Signal signal, Scope scope, Place place) {
        return name.map(written -> remembered.remember(written, signal, handle.degrees(), scope, place));
    }

    private double seconds(Operand operand, Scope scope) {
        return lookup.figures().seconds(operand, scope);
    }
}
