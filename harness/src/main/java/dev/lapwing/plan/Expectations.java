package dev.lapwing.plan;

import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Step.NamedExpectation;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/** Resolves named expectations, one for each vehicle where they speak of every, or lists them as left out. */
final class Expectations {

    private final Lookup lookup;
    private final Checks checks;
    private final ExpectationText text;
    private final RememberedNames remembered;
    private final List<Plan.LeftOut> left = new ArrayList<>();
    private final Map<String, Place> ids = new HashMap<>();

    Expectations(Lookup lookup, Checks checks, ExpectationText text, RememberedNames remembered) {
        this.lookup = lookup;
        this.checks = checks;
        this.text = text;
        this.remembered = remembered;
    }

    /**
     * Those that this unit is asked.
     *
     * @param lasting true where there are steps around them for the time of which they may be watched
     */
    List<PlannedExpectation> planned(List<NamedExpectation> expectations, Scope scope, boolean lasting) {
        List<PlannedExpectation> planned = new ArrayList<>();
        for (NamedExpectation named : expectations) {
            List<Scope> each = eachVehicle(named.expectation(), scope);
            each.forEach(at -> planned(named, at, lasting).ifPresent(planned::add));
            if (each.isEmpty()) {
                planned(named, scope.leftOut("there is no other vehicle to compare with"), lasting);
            }
        }
        return planned;
    }

    List<Plan.LeftOut> left() {
        return left;
    }

    /** How many there were, asked or left out. */
    int met() {
        return ids.size();
    }

    private Optional<PlannedExpectation> planned(NamedExpectation named, Scope scope, boolean lasting) {
        String id = scope.id(named.name());
        claim(id, named.place(), scope);
        Optional<String> whyNot = scope.whyNot().or(() -> forgotten(named.expectation(), scope));
        if (whyNot.isPresent()) {
            leaveOut(id, named, scope, whyNot.get());
            return Optional.empty();
        }
        Check check = checks.check(named.expectation(), scope, named.place(), lasting);
        OptionalDouble law = named.expectation() instanceof Expectation.SettlesAtLaw
                        && check instanceof Check.SettledLevel settled
                        && Double.isFinite(settled.target())
                ? OptionalDouble.of(settled.target())
                : OptionalDouble.empty();
        remembered.ask(id, check.limit().dimension());
        return Optional.of(new PlannedExpectation(
                id,
                text.sentence(named.expectation(), scope, law),
                named.place().toString(),
                check));
    }

    private List<Scope> eachVehicle(Expectation expectation, Scope scope) {
        if (expectation.signals().noneMatch(Conditions::everyVehicle)) {
            return List.of(scope);
        }
        List<Scope> each = new ArrayList<>();
        for (int vehicle = 1; vehicle <= lookup.subject().wiring().vehicles(); vehicle++) {
            Scope at = scope.at(vehicle);
            if (!(expectation instanceof Expectation.Agrees agrees) || !withItself(agrees, at)) {
                each.add(at);
            }
        }
        return each;
    }

    /** "Every vehicle agrees with the first" leaves the first itself out. */
    private boolean withItself(Expectation.Agrees agrees, Scope scope) {
        return lookup.spoken()
                        .signal(agrees.signal(), scope)
                        .equals(lookup.spoken().signal(agrees.with(), scope))
                && Conditions.everyVehicle(agrees.signal()) != Conditions.everyVehicle(agrees.with());
    }

    private void claim(String id, Place place, Scope scope) {
        Place earlier = ids.putIfAbsent(id, place);
        if (earlier != null) {
            String hint = "give each its own name";
            if (earlier.equals(place)) {
                hint = scope.values().isEmpty()
                        ? "call the part in a for-each, whose value then stands in the name"
                        : "let each value of the loop stand once";
            }
            lookup.mistake(place, "expectation '" + id + "' stands twice, first at " + earlier, "", hint);
        }
    }

    private Optional<String> forgotten(Expectation expectation, Scope scope) {
        if (expectation instanceof Expectation.Graduates e) {
            return Stream.concat(Stream.of(e.levels()), e.with().stream())
                    .flatMap(levels -> remembered.whyNoPlateaus(levels).stream())
                    .findFirst()
                    .map(Expectations::notMeasured);
        }
        if (expectation instanceof Expectation.Compares e) {
            return Stream.of(e.expectation(), e.with())
                    .flatMap(name -> left.stream()
                            .filter(out ->
                                    out.id().equals(name) || out.id().equals(RememberedNames.inLoops(name, scope))))
                    .findFirst()
                    .map(out -> "'" + out.id() + "' that it compares is not asked: " + out.why());
        }
        return recalled(expectation)
                .filter(name -> remembered.recall(name, scope).isEmpty())
                .flatMap(name -> remembered.whyNot(name, scope))
                .map(Expectations::notMeasured);
    }

    private static String notMeasured(String why) {
        return "the level that it is held against is not measured: " + why;
    }

    private static Optional<String> recalled(Expectation expectation) {
        if (expectation instanceof Expectation.Repeats e) {
            return Optional.of(e.remembered());
        }
        if (expectation instanceof Expectation.Recovers e) {
            return Optional.of(e.remembered());
        }
        return expectation instanceof Expectation.Departs e ? Optional.of(e.remembered()) : Optional.empty();
    }

    private void leaveOut(String id, NamedExpectation named, Scope scope, String why) {
        Optional<String> name = Optional.empty();
        if (named.expectation() instanceof Expectation.SettlesAtLaw settles) {
            name = settles.rememberAs();
        } else if (named.expectation() instanceof Expectation.SettlesAt settles) {
            name = settles.rememberAs();
        }
        name.ifPresent(written -> remembered.leaveOut(written, scope, why));
        left.add(new Plan.LeftOut(
                id,
                text.sentence(named.expectation(), scope, OptionalDouble.empty()),
                named.place().toString(),
                why));
    }
}
