package dev.lapwing.files;

import dev.lapwing.files.Node.Scalar;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.sequence.Operand;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads figures as steps refer to them: written out, by the name of an acceptance figure, or by a loop's variable. */
final class Operands {
    /** Times that a step may take. */
    static final Range STEP_TIME = new Range(0, 7200);

    private static final Pattern VARIABLE = Pattern.compile("<([^<>]*)>");

    private final Reading reading;
    private final Figures figures;

    Operands(Reading reading) {
        this.reading = reading;
        this.figures = new Figures(reading);
    }

    /** What stands for an operand that could not be read. */
    static Operand none(Place place) {
        return new Operand.Named("", place);
    }

    Operand time(Node node, Scope scope) {
        return value(node, scope, STEP_TIME, Dimension.TIME);
    }

    /** A figure of one of those kinds, written out or not. */
    Operand value(Node node, Scope scope, Range range, Dimension... allowed) {
        return reading.scalar(node, Figures.examples(allowed) + ", or the name of an acceptance figure")
                .flatMap(scalar -> value(scalar.text(), scalar.place(), scope, range, allowed))
                .orElse(none(node.place()));
    }

    Optional<Operand> value(String text, Place place, Scope scope, Range range, Dimension... allowed) {
        if (text.startsWith("<")) {
            return variable(text, place, scope).map(name -> {
                checkKind(name, place, scope, allowed);
                return new Operand.Variable(name, place);
            });
        }
        if (Quantity.looksLikeFigure(text)) {
            return figures.parse(text, place, allowed)
                    .filter(quantity -> figures.checkRange(text, quantity, place, range))
                    .map(quantity -> new Operand.Written(quantity, place));
        }
        return named(text, place, Figures.examples(allowed) + ", or the name of an acceptance figure");
    }

    /** A limit, which a sequence never writes out. */
    Operand limit(Node node, Scope scope) {
        String expected = "the name of an acceptance figure, so that the sequence serves any unit";
        Optional<Scalar> scalar = reading.scalar(node, expected);
        if (scalar.isEmpty()) {
            return none(node.place());
        }
        String text = scalar.get().text();
        Place place = scalar.get().place();
        if (text.startsWith("<")) {
            Optional<String> variable = variable(text, place, scope);
            List<Operand> values = variable.map(name -> scope.loops().getOrDefault(name, List.of()))
                    .orElse(List.of());
            if (values.stream().anyMatch(Operand.Written.class::isInstance)) {
                reading.mistake(place, Quoted.of(text) + " stands for written figures", expected, "");
            }
            return variable.<Operand>map(name -> new Operand.Variable(name, place))
                    .orElse(none(place));
        }
        if (Quantity.looksLikeFigure(text)) {
            reading.mistake(place, Quoted.of(text) + " is written out where a limit is due", expected, "");
            return none(place);
        }
        return named(text, place, expected).orElse(none(place));
    }

    /** Values of a loop: figures with their units, names of acceptance figures, or bare numbers of vehicles. */
    Optional<Operand> loopValue(Node node) {
        String expected = "a figure with its unit, a vehicle's number, or the name of an acceptance figure";
        return reading.scalar(node, expected).flatMap(scalar -> {
            String text = scalar.text();
            if (text.matches("[1-9]\\d?")) {
                Quantity number = new Quantity(Integer.parseInt(text), Dimension.COUNT);
                return Optional.of(new Operand.Written(number, scalar.place()));
            }
            if (Quantity.looksLikeFigure(text)) {
                return figures.parse(text, scalar.place())
                        .filter(q -> figures.checkRange(text, q, scalar.place(), Range.of(q.dimension())))
                        .map(quantity -> new Operand.Written(quantity, scalar.place()));
            }
            return named(text, scalar.place(), expected);
        });
    }

    /** The name in {@code <name>}; a mistake if it is none, or if no loop defines it. */
    Optional<String> variable(String text, Place place, Scope scope) {
        Matcher matcher = VARIABLE.matcher(text);
        if (!matcher.matches() || !Reading.isName(matcher.group(1))) {
            reading.mistake(
                    place, Quoted.of(text) + " is no variable", "the variable of a loop such as '<demand>'", "");
            return Optional.empty();
        }
        String name = matcher.group(1);
        checkDefined(name, place, scope);
        return Optional.of(name);
    }

    /** A text for people that may hold variables. */
    String template(Node node, Scope scope, String expected) {
        Optional<Scalar> scalar = reading.scalar(node, expected);
        scalar.ifPresent(found -> VARIABLE.matcher(found.text())
                .results()
                .forEach(variable -> variable(variable.group(), found.place(), scope)));
        return scalar.map(Scalar::text).orElse("");
    }

    private void checkDefined(String name, Place place, Scope scope) {
        if (scope.loops().containsKey(name)) {
            return;
        }
        if (scope.body().mayAsk()) {
            scope.body().ask(name, place);
            return;
        }
        String near = Reading.near(name, scope.loops().keySet()).replaceAll("'(.*)'", "'<$1>'");
        reading.mistake(place, "no loop around this defines '<" + name + ">'", "", near);
    }

    private void checkKind(String name, Place place, Scope scope, Dimension... allowed) {
        for (Operand value : scope.loops().getOrDefault(name, List.of())) {
            if (value instanceof Operand.Written written
                    && !List.of(allowed).contains(written.quantity().dimension())) {
                String kind = Figures.kind(written.quantity().dimension());
                reading.mistake(place, "'<" + name + ">' stands for " + kind, Figures.examples(allowed), "");
                return;
            }
        }
    }

    private Optional<Operand> named(String text, Place place, String expected) {
        if (!Reading.isName(text)) {
            reading.mistake(place, Quoted.of(text) + " is neither a figure nor a name", expected, "");
            return Optional.empty();
        }
        return Optional.of(new Operand.Named(text, place));
    }
}
