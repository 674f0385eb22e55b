package dev.lapwing.plan;

import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Names under which levels are remembered, in the order of the plan. One name stands for one level. */
final class Remembered {

    private static final Pattern VARIABLE = Pattern.compile("<([^<>]*)>");

    private final Map<String, Place> names = new LinkedHashMap<>();
    private final Map<String, String> leftOut = new HashMap<>();
    private final Mistakes mistakes;

    Remembered(Mistakes mistakes) {
        this.mistakes = mistakes;
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
    String remember(String written, Scope scope, Place place) {
        String name = ofVehicle(text(written, scope), scope);
        unknownVariable(written, scope, place);
        Place earlier = names.putIfAbsent(name, place);
        if (earlier != null) {
            mistakes.add(
                    place,
                    "a level is remembered as '" + name + "' already at " + earlier,
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
