package dev.lapwing.files;

import dev.lapwing.files.Node.Entries;
import dev.lapwing.files.Node.Items;
import dev.lapwing.files.Node.Refused;
import dev.lapwing.files.Node.Scalar;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Reads nodes as what they are due to be. What is not gets its mistake and comes back empty, so that reading goes on
 * and finds the next one.
 */
final class Reading {
    private static final int LISTED_MAX = 16;
    private static final int LISTED_BESIDE_HINT_MAX = 6;
    private static final int NAME_MAX = 64;
    private static final String NAME = "[a-z][a-z0-9]*(-[a-z0-9]+)*";

    private final Mistakes mistakes;

    Reading(Mistakes mistakes) {
        this.mistakes = mistakes;
    }

    void mistake(Place place, String found, String expected, String hint) {
        mistakes.add(place, found, expected, hint);
    }

    void mistake(Place place, String found) {
        mistakes.add(place, found, "", "");
    }

    /** A map with the keys of that shape; unknown and missing keys are reported. */
    Optional<Form> form(Node node, Shape shape) {
        return entries(node, "a map: " + shape.name()).map(entries -> Form.of(entries, shape, this));
    }

    /** A map whatever its keys, not empty. */
    Optional<Entries> entries(Node node, String expected) {
        if (node instanceof Entries entries && !entries.entries().isEmpty()) {
            return Optional.of(entries);
        }
        wrongKind(node, expected);
        return Optional.empty();
    }

    /** A list, not empty; if it is none, a mistake and an empty list. */
    List<Node> items(Node node, String expected) {
        if (node instanceof Items items && !items.nodes().isEmpty()) {
            return items.nodes();
        }
        wrongKind(node, expected);
        return List.of();
    }

    /** A list that may be empty. */
    List<Node> itemsOrNone(Node node, String expected) {
        return node instanceof Items items && items.nodes().isEmpty() ? List.of() : items(node, expected);
    }

    /** A single value that is not empty, without white space around it. */
    Optional<Scalar> scalar(Node node, String expected) {
        if (node instanceof Scalar scalar && !scalar.text().isBlank()) {
            return Optional.of(new Scalar(scalar.text().strip(), scalar.place()));
        }
        wrongKind(node, expected);
        return Optional.empty();
    }

    Optional<String> text(Node node, String expected) {
        return scalar(node, expected).map(scalar -> scalar.text().replaceAll("\\s+", " "));
    }

    /** A name in kebab-case. */
    Optional<String> name(Node node, String expected) {
        return scalar(node, expected)
                .filter(scalar -> checkName(scalar.text(), scalar.place(), expected))
                .map(Scalar::text);
    }

    /** True if it is a name in kebab-case; else a mistake. */
    boolean checkName(String text, Place place, String expected) {
        boolean good = isName(text);
        if (!good) {
            mistake(place, Quoted.of(text) + " is no name", expected, "write small letters, digits and single hyphens");
        }
        return good;
    }

    static boolean isName(String text) {
        return text.length() <= NAME_MAX && text.matches(NAME);
    }

    /** A whole number without a unit. */
    Optional<Integer> whole(Node node, int least, int most, String expected) {
        Optional<Scalar> scalar = scalar(node, expected);
        if (scalar.isEmpty()) {
            return Optional.empty();
        }
        String text = scalar.get().text();
        if (text.matches("\\d{1,8}")) {
            int number = Integer.parseInt(text);
            if (number >= least && number <= most) {
                return Optional.of(number);
            }
        }
        mistake(
                node.place(),
                Quoted.of(text) + (text.matches("[+-]?\\d+") ? " is out of range" : " is no whole number"),
                expected + " from " + least + " to " + most,
                "");
        return Optional.empty();
    }

    /** One of some words. */
    <T> Optional<T> choice(Node node, String what, Map<String, T> choices) {
        return scalar(node, what + ": " + oneOf(choices.keySet())).flatMap(scalar -> {
            Optional<T> chosen = Optional.ofNullable(choices.get(scalar.text()));
            if (chosen.isEmpty()) {
                unknown(scalar.place(), what, scalar.text(), choices.keySet());
            }
            return chosen;
        });
    }

    /** A list of some words, none of them twice. */
    <T> List<T> choices(Node node, String what, Map<String, T> choices) {
        LinkedHashSet<T> chosen = new LinkedHashSet<>();
        for (Node item : itemsOrNone(node, "a list such as [" + first(choices) + "]")) {
            choice(item, what, choices).ifPresent(value -> {
                if (!chosen.add(value)) {
                    mistake(item.place(), "this stands twice in the list");
                }
            });
        }
        return List.copyOf(chosen);
    }

    private static String first(Map<String, ?> choices) {
        return choices.keySet().stream().findFirst().orElse("");
    }

    /** Reports a word that is none of the known ones. */
    void unknown(Place place, String what, String written, Collection<String> known) {
        String near = near(written, known);
        String expected = near.isEmpty() || known.size() <= LISTED_BESIDE_HINT_MAX ? oneOf(known) : "";
        String found = "unknown " + what + (what.contains(" ") ? ": " : " ") + Quoted.of(written);
        mistake(place, found, expected, near);
    }

    /** Reports a node of the wrong kind; says nothing of one already refused. */
    void wrongKind(Node node, String expected) {
        if (!(node instanceof Refused)) {
            boolean nothing = node instanceof Scalar scalar && scalar.text().isBlank();
            boolean empty = node instanceof Items || node instanceof Entries;
            String kind = empty && isEmpty(node) ? "an empty " + node.kind().substring(2) : node.kind();
            mistake(node.place(), (nothing ? "nothing" : kind) + " stands here", expected, "");
        }
    }

    private static boolean isEmpty(Node node) {
        return node instanceof Items items && items.nodes().isEmpty()
                || node instanceof Entries entries && entries.entries().isEmpty();
    }

    /** {@code did you mean 'x'?}, or nothing where no known name is near. */
    static String near(String written, Collection<String> known) {
        return written.length() > NAME_MAX ? "" : NearestName.hint(written, known);
    }

    /** {@code one of 'a', 'b'}; nothing where there are too many to list. */
    static String oneOf(Collection<String> words) {
        if (words.isEmpty() || words.size() > LISTED_MAX) {
            return "";
        }
        return words.stream()
                .map(word -> "'" + word + "'")
                .collect(Collectors.joining(", ", words.size() == 1 ? "" : "one of ", ""));
    }

    /** Choices of an enumeration by the text that stands for each. */
    static <T> Map<String, T> byText(T[] values, Function<T, String> text) {
        Map<String, T> choices = new LinkedHashMap<>();
        for (T value : values) {
            choices.put(text.apply(value), value);
        }
        return choices;
    }

    /** Choice between two words, the first of which stands for true. */
    static Map<String, Boolean> either(String yes, String no) {
        Map<String, Boolean> choices = new LinkedHashMap<>();
        choices.put(yes, true);
        choices.put(no, false);
        return choices;
    }
}
