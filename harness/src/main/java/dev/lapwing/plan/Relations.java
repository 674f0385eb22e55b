package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Curve;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.signal.Polyline;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.Optional;
import java.util.OptionalDouble;

/** Resolves what is held against a curve of time, or against what another expectation measured. */
final class Relations {
    private final Lookup lookup;
    private final RememberedNames remembered;

    Relations(Lookup lookup, RememberedNames remembered) {
        this.lookup = lookup;
        this.remembered = remembered;
    }

    Optional<Check> check(Expectation expectation, Scope scope, Place place) {
        if (expectation instanceof Expectation.Follows e) {
            return Optional.of(follows(e, scope, place));
        }
        if (expectation instanceof Expectation.Compares e) {
            return Optional.of(compares(e, scope, place));
        }
        return Optional.empty();
    }

    private Check follows(Expectation.Follows e, Scope scope, Place place) {
        Signal signal = lookup.signals().level(e.signal(), scope);
        Curve curve = lookup.subject().acceptance().curves().get(e.curve());
        if (curve == null) {
            var curves = lookup.subject().acceptance().curves().keySet();
            String near = NearestName.hint(e.curve(), curves);
            String known = curves.isEmpty()
                    ? "it has none"
                    : "its curves are "
                            + String.join(", ", curves.stream().sorted().toList());
            lookup.mistake(
                    place,
                    "fixture '" + lookup.subject().fixture() + "' has no curve '" + e.curve() + "'",
                    "",
                    near.isEmpty() ? known : near);
            return new Check.Follows(
                    signal, Optional.empty(), Optional.empty(), Figures.holdsAtAll(signal.dimension(), place));
        }
        if (signal.dimension() != curve.dimension()) {
            lookup.mistake(
                    e.signal().place(),
                    signal.spoken() + " is no pressure, and curve '" + e.curve() + "' (" + curve.place()
                            + ") gives pressures",
                    "a pressure such as 'brake-cylinder at last'",
                    "");
        }
        curve.lower().ifPresent(line -> measurable(signal, line, curve));
        curve.upper().ifPresent(line -> measurable(signal, line, curve));
        Limit inside = new Limit(
                curve.name(),
                curve.dimension(),
                OptionalDouble.of(0),
                OptionalDouble.empty(),
                DecisionRule.GUARDED,
                OptionalDouble.empty(),
                curve.source(),
                curve.place().toString());
        return new Check.Follows(signal, curve.lower(), curve.upper(), inside);
    }

    private void measurable(Signal signal, Polyline line, Curve curve) {
        line.points().forEach(point -> lookup.connections().measurable(signal, point.y(), curve.place()));
    }

    private Check compares(Expectation.Compares e, Scope scope, Place place) {
        Optional<RememberedNames.Asked> one = remembered.asked(e.expectation(), scope);
        Optional<RememberedNames.Asked> other = remembered.asked(e.with(), scope);
        unknown(one, e.expectation(), place);
        unknown(other, e.with(), place);
        Dimension due = one.map(RememberedNames.Asked::dimension).orElse(Dimension.TIME);
        if (other.isPresent() && other.get().dimension() != due) {
            lookup.mistake(
                    place,
                    "'" + e.expectation() + "' measures " + FigureText.kind(due) + " and '" + e.with() + "' "
                            + FigureText.kind(other.get().dimension()),
                    "two expectations that measure one kind of thing",
                    "");
        }
        Limit limit = lookup.figures().limit(e.limit(), scope, Dimension.RATIO, due);
        return new Check.Comparison(
                one.map(RememberedNames.Asked::id).orElse(e.expectation()),
                other.map(RememberedNames.Asked::id).orElse(e.with()),
                limit.dimension() == Dimension.RATIO && due != Dimension.RATIO,
                limit);
    }

    private void unknown(Optional<RememberedNames.Asked> asked, String name, Place place) {
        if (asked.isEmpty() && !name.isEmpty()) {
            lookup.mistake(
                    place,
                    "no expectation '" + name + "' stands before this",
                    "",
                    NearestName.hint(name, remembered.askedIds()));
        }
    }
}
