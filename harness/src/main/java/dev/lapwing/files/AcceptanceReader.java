package dev.lapwing.files;

import dev.lapwing.files.Node.Entry;
import dev.lapwing.files.Pairs.Pair;
import dev.lapwing.files.Pairs.Side;
import dev.lapwing.fixture.Acceptance;
import dev.lapwing.fixture.Curve;
import dev.lapwing.fixture.Figure;
import dev.lapwing.fixture.Law;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Place;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Supplier;

/** Reads a fixture's acceptance: figures and laws, each with its source. */
final class AcceptanceReader {
    private static final Side SHARES = new Side(new Range(0, 1), Dimension.RATIO);
    private static final Range RISKS = new Range(1e-6, DecisionRule.RISK_GREATEST);
    /** About the risk that a guard band of U leaves (2.3 %). */
    private static final double DUMP_RISK_GREATEST = 0.025;

    private static final Side PRESSURES = Side.of(Dimension.PRESSURE);

    private final Reading reading;
    private final Figures figures;
    private final Pairs pairs;
    private final Set<String> arcs;

    AcceptanceReader(Reading reading, Set<String> arcs) {
        this.reading = reading;
        this.figures = new Figures(reading);
        this.pairs = new Pairs(reading);
        this.arcs = arcs;
    }

    /** The block, to be made only if there is no mistake. */
    Supplier<Acceptance> acceptance(Node node) {
        Optional<Form> read = reading.form(node, Shapes.ACCEPTANCE);
        if (read.isEmpty()) {
            return Loaded.never();
        }
        Form form = read.get();
        String issue = form.text("issue", "number and issue of the acceptance document");
        String approver = form.text("approved-by", "who approved the figures");
        Map<String, Figure> all = new LinkedHashMap<>();
        form.value("figures")
                .flatMap(n -> reading.entries(n, "a map from names to figures"))
                .ifPresent(map -> map.entries()
                        .forEach(entry -> figure(entry).ifPresent(figure -> all.put(entry.key(), figure))));
        Map<String, Supplier<Law>> laws = new LinkedHashMap<>();
        form.value("laws")
                .flatMap(n -> reading.entries(n, "a map from names to laws"))
                .ifPresent(map -> map.entries().forEach(entry -> laws.put(entry.key(), law(entry))));
        Map<String, Supplier<Curve>> curves = new CurveReader(reading).curves(form);
        return () -> {
            Map<String, Curve> drawn = new LinkedHashMap<>();
            curves.forEach((name, curve) -> drawn.put(name, curve.get()));
            Map<String, Law> made = new LinkedHashMap<>();
            laws.forEach((name, law) -> made.put(name, law.get()));
            return new Acceptance(issue, approver, all, made, drawn);
        };
    }

    private Optional<Figure> figure(Entry entry) {
        reading.checkName(entry.key(), entry.place(), "a name such as 'ep-rise-time'");
        Optional<Form> read = reading.form(entry.value(), Shapes.FIGURE);
        if (read.isEmpty()) {
            return Optional.empty();
        }
        Form form = read.get();
        List<String> kinds = Shapes.FIGURE_KINDS.stream().filter(form::has).toList();
        if (kinds.size() != 1) {
            String found = kinds.isEmpty()
                    ? "figure '" + entry.key() + "' states nothing"
                    : "figure '" + entry.key() + "' states '" + String.join("' and '", kinds) + "'";
            Place place = kinds.isEmpty() ? entry.place() : form.place(kinds.get(1));
            reading.mistake(place, found, "one of 'value', 'at-most', 'at-least', 'between'", "");
        }
        String source = form.text("source", "standard and clause, drawing, or 'common practice, no source'");
        List<Quantity> ends = kinds.isEmpty() ? List.of() : ends(form, kinds.get(0));
        Dimension dimension = ends.isEmpty() ? Dimension.COUNT : ends.get(0).dimension();
        OptionalDouble largest =
                kinds.isEmpty() || ends.isEmpty() ? OptionalDouble.empty() : largest(form, kinds.get(0), dimension);
        DecisionRule rule = rule(entry.key(), form, dimension);
        String kind = kinds.isEmpty() ? "" : kinds.get(0);
        return Optional.of(new Figure(
                entry.key(),
                entry.place(),
                dimension,
                end(kind.equals("value"), ends, 0),
                end(kind.equals("at-least") || kind.equals("between"), ends, 0),
                end(kind.equals("at-most") || kind.equals("between"), ends, kind.equals("between") ? 1 : 0),
                rule,
                largest,
                source));
    }

    private static OptionalDouble end(boolean stated, List<Quantity> ends, int index) {
        return stated && index < ends.size() ? OptionalDouble.of(ends.get(index).base()) : OptionalDouble.empty();
    }

    private List<Quantity> ends(Form form, String kind) {
        Node node = form.value(kind).orElseThrow();
        if (!kind.equals("between")) {
            return any(node).stream().toList();
        }
        List<Node> two = reading.items(node, "two figures in brackets, the smaller first");
        if (two.size() != 2) {
            if (!two.isEmpty()) {
                reading.mistake(node.place(), two.size() + " figures stand here", "two, the smaller first", "");
            }
            return List.of();
        }
        Optional<Quantity> lower = any(two.get(0));
        Optional<Quantity> upper = lower.isEmpty()
                ? any(two.get(1))
                : figures.figure(two.get(1), lower.get().dimension());
        if (lower.isEmpty() || upper.isEmpty()) {
            return List.of();
        }
        if (lower.get().base() >= upper.get().base()) {
            reading.mistake(node.place(), "the first figure is not below the second", "the smaller first", "");
        }
        return List.of(lower.get(), upper.get());
    }

    private Optional<Quantity> any(Node node) {
        return reading.scalar(node, Figures.examples())
                .flatMap(scalar -> figures.parse(scalar.text(), scalar.place())
                        .filter(q -> figures.checkRange(scalar.text(), q, scalar.place(), Range.of(q.dimension()))));
    }

    private OptionalDouble largest(Form form, String kind, Dimension dimension) {
        if (!form.has("largest-uncertainty")) {
            return OptionalDouble.empty();
        }
        if (kind.equals("value") || kind.equals("between")) {
            String hint = kind.equals("value") ? "" : "a limit with two ends has one already: its width";
            String found = "'largest-uncertainty' stands beside '" + kind + "'";
            reading.mistake(form.place("largest-uncertainty"), found, "it only beside 'at-most' or 'at-least'", hint);
        }
        Optional<Quantity> largest = form.value("largest-uncertainty").flatMap(n -> figures.figure(n, dimension));
        if (largest.isPresent() && largest.get().base() <= 0) {
            reading.mistake(form.place("largest-uncertainty"), "'largest-uncertainty' is not above zero");
        }
        return largest.map(q -> OptionalDouble.of(q.base())).orElse(OptionalDouble.empty());
    }

    private DecisionRule rule(String name, Form form, Dimension dimension) {
        DecisionRule[] rules = {DecisionRule.GUARDED, DecisionRule.SIMPLE};
        Optional<DecisionRule> rule =
                form.value("rule").flatMap(n -> reading.choice(n, "rule", Reading.byText(rules, DecisionRule::text)));
        for (String key : List.of("rule", "risk")) {
            if (form.has("value") && form.has(key)) {
                reading.mistake(form.place(key), "'" + key + "' stands beside 'value'", "it only beside a limit", "");
            }
        }
        boolean dumpTime =
                dimension == Dimension.TIME && Arrays.asList(name.split("-")).contains("dump");
        boolean simple = rule.filter(r -> !r.guards()).isPresent();
        if (dumpTime && simple) {
            reading.mistake(form.place("rule"), "a dump time is never judged by the simple rule", "'guarded'", "");
        }
        return form.value("risk")
                .flatMap(n -> figures.figure(n, RISKS, Dimension.RATIO))
                .flatMap(risk -> guarded(form, simple, dumpTime, risk.base()))
                .or(() -> rule)
                .orElse(DecisionRule.GUARDED);
    }

    private Optional<DecisionRule> guarded(Form form, boolean simple, boolean dumpTime, double risk) {
        if (simple) {
            String found = "'risk' stands beside the simple rule, which guards nothing";
            reading.mistake(form.place("risk"), found, "it beside 'rule: guarded'", "");
            return Optional.empty();
        }
        if (dumpTime && risk > DUMP_RISK_GREATEST) {
            String found = "a dump time is never judged with a risk of more than 2.5 %";
            reading.mistake(form.place("risk"), found, "a smaller risk, or none: then U guards the limit", "");
            return Optional.empty();
        }
        return Optional.of(DecisionRule.guarded(risk));
    }

    private Supplier<Law> law(Entry entry) {
        reading.checkName(entry.key(), entry.place(), "a name such as 'self-lapping'");
        Optional<Form> read = reading.form(entry.value(), Shapes.LAW);
        if (read.isEmpty()) {
            return Loaded.never();
        }
        Form form = read.get();
        Optional<String> arc = form.value("arc")
                .flatMap(n -> reading.choice(n, "arc", Reading.byText(arcs.toArray(String[]::new), a -> a)));
        String source = form.text("source", "standard and clause, drawing, or 'common practice, no source'");
        Optional<List<Pair>> points = form.value("points")
                .flatMap(n -> pairs.pairs(n, SHARES, PRESSURES, "a list of pairs such as [50 %, 25 psi]"));
        points.ifPresent(this::checkRising);
        return () -> new Law(
                entry.key(),
                entry.place(),
                arc.orElseThrow(),
                points.orElseThrow().stream()
                        .map(pair ->
                                new Law.Point(pair.left().base(), pair.right().base()))
                        .toList(),
                source);
    }

    private void checkRising(List<Pair> points) {
        for (int i = 1; i < points.size(); i++) {
            if (points.get(i).left().base() <= points.get(i - 1).left().base()) {
                reading.mistake(points.get(i).place(), "the share is not above that before it", "shares that rise", "");
            }
        }
    }
}
