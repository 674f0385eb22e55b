package dev.lapwing.files;

import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.Step;
import dev.lapwing.source.Mistakes;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;

/** Reads one sequence with the parts that it includes. */
final class SequenceReader {
    private final Path path;
    private final Mistakes mistakes = new Mistakes();
    private final Reading reading = new Reading(mistakes);
    private final Steps steps = new Steps(reading);
    private final Parts parts = new Parts(mistakes, reading, steps);
    private final List<Body> sections = new ArrayList<>();

    SequenceReader(Path path) {
        this.path = path;
    }

    Loaded<Sequence> read() {
        Optional<Sequence> sequence = parts.open(path)
                .flatMap(root -> reading.form(root, Shapes.SEQUENCE))
                .map(this::sequence);
        return Loaded.of(mistakes, parts.files(), sequence::orElseThrow);
    }

    private Sequence sequence(Form form) {
        form.value("include").ifPresent(list -> parts.include(list, path));
        form.value("parts").ifPresent(parts::define);
        List<Step> prepare = section(form, "prepare", Body.Kind.WITHOUT_EXPECTATIONS);
        List<Step> main = section(form, "steps", Body.Kind.STEPS);
        List<Step> tidyUp = section(form, "tidy-up", Body.Kind.WITHOUT_EXPECTATIONS);
        parts.checkCalls(sections);
        return new Sequence(
                path.toString(),
                FileNames.withoutEnding(path),
                form.text("sequence", "the sequence's title"),
                form.text("purpose", "a sentence that says why it is done"),
                form.value("needs").map(this::needs).orElse(List.of()),
                form.value("needs-design").map(this::needsDesign).orElse(List.of()),
                continues(form),
                prepare,
                start(form),
                main,
                form.value("breaks").map(this::breaks).orElse(List.of()),
                tidyUp,
                parts.parts());
    }

    private List<Step> section(Form form, String key, Body.Kind kind) {
        return form.value(key)
                .map(node -> {
                    Body body = new Body(form.place(key), kind);
                    sections.add(body);
                    boolean none =
                            node instanceof Node.Items items && items.nodes().isEmpty();
                    List<Step> read = none && kind != Body.Kind.STEPS ? List.of() : steps.steps(node, Scope.of(body));
                    body.hold(read);
                    return read;
                })
                .orElse(List.of());
    }

    private List<Step.WaitUntil> start(Form form) {
        Scope scope = Scope.of(new Body(form.place("start"), Body.Kind.WITHOUT_EXPECTATIONS));
        return form.value("start").map(node -> steps.start(node, scope)).orElse(List.of());
    }

    private boolean continues(Form form) {
        return form.value("continues")
                .flatMap(node -> reading.choice(node, "answer", Reading.either("yes", "no")))
                .orElse(false);
    }

    private List<Ability> needs(Node node) {
        return reading.choices(node, "ability", Reading.byText(Ability.values(), Ability::text));
    }

    private List<AlwaysProperty> breaks(Node node) {
        return reading.choices(node, "property", Reading.byText(AlwaysProperty.values(), AlwaysProperty::text));
    }

    private List<DesignOption> needsDesign(Node node) {
        LinkedHashSet<DesignOption> options = new LinkedHashSet<>();
        reading.entries(node, "a map from design flags to options")
                .ifPresent(map ->
                        map.entries().forEach(entry -> steps.design(entry).ifPresent(options::add)));
        return List.copyOf(options);
    }
}
