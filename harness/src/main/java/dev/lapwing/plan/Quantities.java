package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/** Resolves expectations of defined quantities: of responses, of how movements begin and run, of staircases. */
final class Quantities {
    /** A straight line through fewer places says nothing of its own doubt. */
    private static final int PLACES_LEAST = 3;
    /** By how much of itself a spacing may be off where nobody says. Common practice, no source. */
    private static final double SPACING_WITHIN_SHARE = 0.01;

    private final Lookup lookup;
    private final RememberedNames remembered;

    Quantities(Lookup lookup, RememberedNames remembered) {
        this.lookup = lookup;
        this.remembered = remembered;
    }

    Optional<Check> check(Expectation expectation, Scope scope, Place place, boolean lasting) {
        Check check = null;
        if (expectation instanceof Expectation.Responds e) {
            check = responds(e, scope);
        } else if (expectation instanceof Expectation.Begins e) {
            Signal signal = lookup.signals().level(e.signal(), scope);
            Limit limit = lookup.time(signal, e.rising(), e.within(), scope);
            check = new Check.Onset(signal, e.rising(), Patience.of(limit), limit);
        } else if (expectation instanceof Expectation.Steepest e) {
            check = steepest(e, scope);
        } else if (expectation instanceof Expectation.Travels e) {
            check = travels(e, scope);
        } else if (expectation instanceof Expectation.Lasts e) {
            check = new Check.Duration(
                    lookup.conditions().resolve(e.condition(), scope),
                    lookup.figures().patience(e.within(), scope),
                    lookup.figures().limit(e.time(), scope, Dimension.TIME));
        } else if (expectation instanceof Expectation.Recovers e) {
            check = recovers(e, scope, place);
        } else if (expectation instanceof Expectation.Departs e) {
            Signal signal = lookup.signals().level(e.signal(), scope);
            check = new Check.Departure(
                    signal,
                    recalled(e.remembered(), scope, place),
                    lookup.over(e.over(), scope, place, lasting),
                    lookup.difference(signal, e.difference(), scope));
        } else if (expectation instanceof Expectation.Graduates e) {
            check = graduates(e, scope);
        }
        return Optional.ofNullable(check);
    }

    private Check responds(Expectation.Responds e, Scope scope) {
        Signal signal = lookup.signals().level(e.signal(), scope);
        double over = lookup.averaged(signal, e.over(), scope);
        double share = e.share()
                .or(e::band)
                .map(operand -> lookup.figures().value(operand, scope, Dimension.RATIO))
                .orElse(0.0);
        return new Check.Response(
                signal,
                e.term(),
                share,
                new Check.States(
                        given(e.first(), signal, scope),
                        given(e.last(), signal, scope),
                        e.byHistogram(),
                        Math.min(over, Checks.BEFORE)),
                lookup.figures().seconds(e.settled(), scope),
                over,
                limit(e, signal, scope));
    }

    private Limit limit(Expectation.Responds e, Signal signal, Scope scope) {
        if (e.term().timed()) {
            return lookup.figures().limit(e.limit(), scope, Dimension.TIME);
        }
        return e.term().relative()
                ? lookup.figures().limit(e.limit(), scope, Dimension.RATIO, signal.dimension())
                : lookup.figures().limit(e.limit(), scope, signal.dimension());
    }

    private OptionalDouble given(Optional<Operand> level, Signal signal, Scope scope) {
        if (level.isEmpty()) {
            return OptionalDouble.empty();
        }
        double value = lookup.figures().value(level.get(), scope, signal.dimension());
        lookup.connections().measurable(signal, value, level.get().place());
        return OptionalDouble.of(value);
    }

    private Check steepest(Expectation.Steepest e, Scope scope) {
        Signal signal = pressure(e, scope);
        double width = lookup.averaged(signal, e.width(), scope);
        double over = lookup.figures().stretch(e.over(), scope);
        if (over < width) {
            lookup.mistake(
                    e.over().place(),
                    "'over' (" + lookup.text().quantity(over, Dimension.TIME) + ") is shorter than 'width' ("
                            + lookup.text().quantity(width, Dimension.TIME) + ")",
                    "a stretch that holds the width",
                    "");
        }
        return new Check.SteepestRate(
                signal,
                e.rising(),
                width,
                over,
                lookup.figures().limit(e.rate(), scope, Dimension.PRESSURE_RATE, Dimension.LEAK_RATE));
    }

    private Signal pressure(Expectation.Steepest e, Scope scope) {
        Signal signal = lookup.signals().level(e.signal(), scope);
        if (signal.dimension() != Dimension.PRESSURE) {
            lookup.mistake(
                    e.signal().place(),
                    signal.spoken() + " is no pressure, and a rate is one of pressure",
                    "a pressure such as 'brake-pipe at last'",
                    "");
        }
        return signal;
    }

    private Check travels(Expectation.Travels e, Scope scope) {
        double spacing = lookup.figures().value(e.spacing(), scope, Dimension.LENGTH);
        if (spacing <= 0) {
            lookup.mistake(
                    e.spacing().place(),
                    "a spacing of " + lookup.text().quantity(spacing, Dimension.LENGTH),
                    "the distance from one vehicle's transducer to the next",
                    "");
        }
        int vehicles = lookup.subject().wiring().vehicles();
        List<Signal> signals = IntStream.rangeClosed(1, vehicles)
                .<Signal>mapToObj(vehicle -> new Signal.Pressure(e.pressure(), vehicle))
                .toList();
        if (vehicles < PLACES_LEAST) {
            lookup.mistake(
                    e.place(),
                    "the train has " + vehicles + " vehicles, and a straight line through fewer than " + PLACES_LEAST
                            + " times says nothing of its own doubt",
                    "a longer train",
                    "for a shorter one write begins-to-fall for its last vehicle");
        }
        signals.forEach(signal -> lookup.connections().carried(signal, e.place()));
        return new Check.Travel(
                signals,
                e.rising(),
                spacing,
                spacingWithin(e, spacing, scope),
                lookup.figures().patience(e.within(), scope),
                lookup.figures().limit(e.speed(), scope, Dimension.SPEED));
    }

    private double spacingWithin(Expectation.Travels e, double spacing, Scope scope) {
        double within = e.spacingWithin()
                .map(bound -> lookup.figures().value(bound, scope, Dimension.LENGTH))
                .orElse(SPACING_WITHIN_SHARE * spacing);
        if (within >= spacing) {
            lookup.mistake(
                    e.spacingWithin().orElse(e.spacing()).place(),
                    "a spacing of " + lookup.text().quantity(spacing, Dimension.LENGTH) + " that may be off by "
                            + lookup.text().quantity(within, Dimension.LENGTH),
                    "a bound below the spacing itself, such as '200 mm'",
                    "");
        }
        return within;
    }

    private Check recovers(Expectation.Recovers e, Scope scope, Place place) {
        Signal signal = lookup.signals().level(e.signal(), scope);
        double band = lookup.figures().value(e.band(), scope, signal.dimension());
        if (band <= 0) {
            lookup.mistake(
                    e.band().place(),
                    "a band of " + lookup.text().quantity(band, signal.dimension()),
                    "how far to either side the level may be and count as back, above 0",
                    "");
        }
        Limit limit = lookup.figures().limit(e.within(), scope, Dimension.TIME);
        return new Check.Recovery(signal, recalled(e.remembered(), scope, place), band, Patience.of(limit), limit);
    }

    private String recalled(String written, Scope scope, Place place) {
        Optional<String> name = remembered.recall(written, scope);
        if (name.isEmpty()) {
            remembered.neverRemembered(written, scope, place);
        }
        return name.orElse(written);
    }

    private Check graduates(Expectation.Graduates e, Scope scope) {
        boolean angle = e.term() == StaircaseTerm.SMALLEST_GRADUATION;
        Limit limit = lookup.figures().limit(e.limit(), scope, angle ? Dimension.ANGLE : Dimension.PRESSURE);
        double answer = e.answer()
                .map(operand -> lookup.figures().value(operand, scope, Dimension.PRESSURE))
                .orElse(0.0);
        return new Check.Staircase(
                e.term(),
                plateaus(e.levels(), e.term() == StaircaseTerm.LINEARITY ? PLACES_LEAST : 2, e.place()),
                e.with().map(with -> plateaus(with, 1, e.place())).orElse(List.of()),
                answer,
                limit);
    }

    private List<Check.Plateau> plateaus(String beginning, int least, Place place) {
        List<Check.Plateau> found = remembered.plateaus(beginning);
        if (found.isEmpty()) {
            String near = NearestName.hint(beginning, remembered.beginnings());
            lookup.mistake(
                    place,
                    "no level was remembered under a name that begins with '" + beginning + ",' before this",
                    "",
                    near.isEmpty()
                            ? "write 'remember: " + beginning + ", <variable>' into the expectations that measure them"
                            : near);
        } else if (found.size() < least) {
            lookup.mistake(
                    place,
                    "only " + found.size() + " level is remembered as '" + beginning + "'",
                    least + " or more",
                    "");
        }
        if (found.stream().map(Check.Plateau::signal).distinct().count() > 1) {
            lookup.mistake(
                    place,
                    "the levels '" + beginning + "' are of several signals",
                    "levels of one signal",
                    "remember them under different names");
        }
        return found;
    }
}
