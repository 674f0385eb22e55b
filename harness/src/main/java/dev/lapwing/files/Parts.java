package dev.lapwing.files;

import dev.lapwing.files.Node.Entries;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.sequence.Sequence.Part;
import dev.lapwing.sequence.Step;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** The parts that a file defines and includes. Each file is read once, however often it is included. */
final class Parts {
    private final Mistakes mistakes;
    private final Reading reading;
    private final Steps steps;
    private final List<Path> files = new ArrayList<>();
    private final Deque<Path> open = new ArrayDeque<>();
    private final Set<Path> done = new HashSet<>();
    private final Map<String, Draft> drafts = new LinkedHashMap<>();
    private boolean complete = true;

    /** A part as read, before it is known whether what it calls is there. */
    record Draft(Part part, Body body) {}

    Parts(Mistakes mistakes, Reading reading, Steps steps) {
        this.mistakes = mistakes;
        this.reading = reading;
        this.steps = steps;
    }

    /** The tree of the file that was asked for. */
    Optional<Node> open(Path path) {
        files.add(path);
        open.push(FileNames.identity(path));
        String file = path.toString();
        return TextFile.read(path, new Place(file, 1, 1), mistakes).flatMap(text -> YamlTree.of(file, text, mistakes));
    }

    /** Reads what a file includes. */
    void include(Node list, Path from) {
        for (Node item : reading.itemsOrNone(list, "a list of files with parts")) {
            Optional<String> name = reading.text(item, "a file with parts, relative to this file");
            if (name.isPresent()) {
                include(name.get(), item.place(), from);
            }
        }
    }

    private void include(String name, Place asked, Path from) {
        if (open.size() > PartCalls.DEPTH_MAX) {
            reading.mistake(asked, "files include files more than " + PartCalls.DEPTH_MAX + " deep");
            complete = false;
            return;
        }
        Path path;
        try {
            path = from.resolveSibling(name).normalize();
        } catch (InvalidPathException e) {
            reading.mistake(asked, Quoted.of(name) + " is no file name");
            complete = false;
            return;
        }
        Path identity = FileNames.identity(path);
        if (open.contains(identity)) {
            reading.mistake(
                    asked, Quoted.of(name) + " is included in a circle", "a file that does not include this one", "");
        } else if (done.add(identity)) {
            files.add(path);
            open.push(identity);
            String file = path.toString();
            Optional<Node> root =
                    TextFile.read(path, asked, mistakes).flatMap(text -> YamlTree.of(file, text, mistakes));
            complete &= root.isPresent();
            root.ifPresent(node -> included(node, name, asked, path));
            open.pop();
        }
    }

    private void included(Node root, String name, Place asked, Path path) {
        for (String other : List.of("sequence", "fixture", "bench")) {
            if (root instanceof Entries entries && entries.entry(other).isPresent()) {
                reading.mistake(asked, Quoted.of(name) + " is a " + other, "a file of parts", "");
                complete = false;
                return;
            }
        }
        file(root, path);
    }

    /** Reads a whole file of parts. */
    void file(Node root, Path path) {
        Optional<Form> form = reading.form(root, Shapes.PARTS);
        complete &= form.isPresent();
        form.flatMap(f -> f.value("include")).ifPresent(list -> include(list, path));
        form.flatMap(f -> f.value("parts")).ifPresent(this::define);
    }

    /** Reads the parts under a key {@code parts}. */
    void define(Node node) {
        Optional<Entries> map = reading.entries(node, "a map from names of parts to their steps");
        complete &= map.isPresent();
        map.ifPresent(entries -> entries.entries().forEach(this::part));
    }

    private void part(Entry entry) {
        reading.checkName(entry.key(), entry.place(), "a name such as 'open-cab'");
        Body body = new Body(entry.place(), Body.Kind.PART);
        List<Step> read = steps.steps(entry.value(), Scope.of(body));
        Draft first = drafts.putIfAbsent(entry.key(), new Draft(new Part(entry.key(), read), body));
        if (first != null) {
            String where = "it is defined first at " + first.body().place();
            reading.mistake(entry.place(), "part '" + entry.key() + "' is defined twice", "a name for each", where);
        }
    }

    /** Checks every call, in the parts and in the sections of the sequence that uses them. */
    void checkCalls(List<Body> sections) {
        PartCalls calls = new PartCalls(drafts, complete, reading);
        boolean sound = calls.check(sections);
        for (Body section : sections) {
            if (section.mayExpect() && sound && complete && !section.isEmpty() && !calls.expects(section)) {
                String expected = "at least one 'expect' or 'meanwhile'";
                reading.mistake(section.place(), "this sequence expects nothing", expected, "");
            }
            double count = sound ? new Unrolled(parts()).count(section.steps()) : 0;
            if (count > Unrolled.STEPS_MAX) {
                String found = "with its loops and parts this has more than " + Unrolled.STEPS_MAX + " steps";
                reading.mistake(section.place(), found);
            }
        }
    }

    Map<String, Part> parts() {
        return drafts.values().stream()
                .map(Draft::part)
                .collect(Collectors.toMap(Part::name, part -> part, (a, b) -> a, LinkedHashMap::new));
    }

    List<Path> files() {
        return files;
    }
}
