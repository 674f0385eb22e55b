package dev.lapwing.plan;

import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Names under which levels are remembered, in the order of the plan. One name stands for one level. */
final class RememberedNames {

    private static final Pattern VARIABLE = Pattern.compile("<([^<>]*)>");

    private final Map<String, Level> names = new LinkedHashMap<>();
    private final Map<String, String> leftOut = new HashMap<>();
    private final Map<String, Asked> asked = new LinkedHashMap<>();
    private final Mistakes mistakes;

    /** A level that is remembered: where that is written, of what signal, and where the handle was then. */
    private record Level(Place place, Signal signal, OptionalDouble degrees) {}

    RememberedNames(Mistakes mistakes) {
        this.mistakes = mistakes;
    }

    /** An expectation that was asked before, and of what kind its figure is. */
    record Asked(String id, Dimension dimension) {}

    void ask(String id, Dimension dimension) {
        asked.putIfAbsent(id, new Asked(id, dimension));
    }

    /** The expectation of that name that was asked before: in the same pass of the loops, else outside of them. */
    Optional<Asked> asked(String name, Scope scope) {
        return Optional.ofNullable(asked.get(inLoops(name, scope))).or(() -> Optional.ofNullable(asked.get(name)));
    }

    /** Its id in this pass of the loops around; {@code @4} stands last. */
    static String inLoops(String name, Scope scope) {
        int at = name.indexOf('@');
        return at < 0 ? scope.id(name) : scope.id(name.substring(0, at)).replaceAll("@.*", "") + name.substring(at);
    }

    Set<String> askedIds() {
        return asked.keySet();
    }

    /** The name with what the loops' variables stand for. */
    static String text(String written, Scope scope) {
        return VARIABLE.matcher(written)
                .replaceAll(variable -> Matcher.quoteReplacement(
                        Optional.ofNullable(scope.variables().get(variable.group(1)))
                                .map(FigureText::inId)
                                .orElse(variable.group())));
    }

    /** Remembers, for each vehicle by itself where the expectation goes through every vehicle. */
    String remember(String written, Signal signal, OptionalDouble degrees, Scope scope, Place place) {
        String name = ofVehicle(text(written, scope), scope);
        unknownVariable(written, scope, place);
        Level earlier = names.putIfAbsent(name, new Level(place, signal, degrees));
        if (earlier != null) {
            mistakes.add(
                    place,
                    "a level is remembered as '" + name + "' already at " + earlier.place(),
                    "",
                    scope.values().isEmpty()
                            ? "give it another name"
                            : "put the loop's variable into the name, such as '" + written + " <"
                                    + scope.variables().keySet().iterator().next() + ">'");
        }
        return name;
    }

    void leaveOut(String written, Scope scope, String why) {
        leftOut.put(ofVehicle(text(written, scope), scope), why);
    }

    /** The remembered name that is meant: of the same vehicle if there is one, else the one for all. */
    Optional<String> recall(String written, Scope scope) {
        String name = text(written, scope);
        String ofVehicle = ofVehicle(name, scope);
        return names.containsKey(ofVehicle)
                ? Optional.of(ofVehicle)
                : Optional.of(name).filter(names::containsKey);
    }

    /**
     * The levels whose names begin so, that is, are this text or go on with a comma after it, in the order of the
     * plan; those without a place of the handle are left aside.
     */
    List<Check.Plateau> plateaus(String beginning) {
        List<Check.Plateau> found = new ArrayList<>();
        names.forEach((name, level) -> {
            if (begins(name, beginning) && level.degrees().isPresent()) {
                found.add(
                        new Check.Plateau(name, level.signal(), level.degrees().getAsDouble()));
            }
        });
        return found;
    }

    /** Why levels whose names begin so are not measured, if the measuring of one was left out. */
    Optional<String> whyNoPlateaus(String beginning) {
        return leftOut.entrySet().stream()
                .filter(left -> begins(left.getKey(), beginning))
                .map(Map.Entry::getValue)
                .findFirst();
    }

    /** What the names begin with. */
    List<String> beginnings() {
        return names.keySet().stream()
                .map(name -> name.replaceAll(",.*", ""))
                .distinct()
                .toList();
    }

    private static boolean begins(String name, String beginning) {
        return name.equals(beginning) || name.startsWith(beginning + ",");
    }

    /** Why this unit does not come to have it, if its remembering was left out. */
    Optional<String> whyNot(String written, Scope scope) {
        String name = text(written, scope);
        return Optional.ofNullable(leftOut.get(ofVehicle(name, scope)))
                .or(() -> Optional.ofNullable(leftOut.get(name)));
    }

    void neverRemembered(String written, Scope scope, Place place) {
        if (unknownVariable(written, scope, place)) {
            return;
        }
        String name = text(written, scope);
        String near = NearestName.hint(name, names.keySet());
        mistakes.add(
                place,
                "no level was remembered as '" + name + "' before this",
                "",
                near.isEmpty() ? "write 'remember: " + name + "' into the expectation that measures it" : near);
    }

    private boolean unknownVariable(String written, Scope scope, Place place) {
        Optional<String> unknown = VARIABLE.matcher(written)
                .results()
                .map(variable -> variable.group(1))
                .filter(variable -> !scope.variables().containsKey(variable))
                .findFirst();
        unknown.ifPresent(variable -> mistakes.add(
                place,
                "<" + variable + "> in '" + written + "' is the variable of no loop around this step",
                "",
                NearestName.hint(variable, scope.variables().keySet())));
        return unknown.isPresent();
    }

    private static String ofVehicle(String name, Scope scope) {
        return scope.every().isPresent() ? name + "@" + scope.every().getAsInt() : name;
    }
}
