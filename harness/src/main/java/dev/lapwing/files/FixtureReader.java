package dev.lapwing.files;

import dev.lapwing.files.Node.Entries;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.fixture.Acceptance;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;

/** Reads one fixture and those that it is based on. */
final class FixtureReader {
    private final Path path;
    private final Mistakes mistakes = new Mistakes();
    private final Reading reading = new Reading(mistakes);
    private final List<Path> files = new ArrayList<>();
    private final Set<Path> seen = new HashSet<>();

    FixtureReader(Path path) {
        this.path = path;
    }

    Loaded<Fixture> read() {
        Supplier<Fixture> fixture = tree(path, new Place(path.toString(), 1, 1))
                .flatMap(root -> reading.form(root, Shapes.FIXTURE))
                .map(this::fixture)
                .orElse(Loaded.never());
        return Loaded.of(mistakes, files, fixture);
    }

    private Supplier<Fixture> fixture(Form form) {
        String title = form.text("fixture", "the unit's title");
        WiringReader wired = new WiringReader(reading);
        Supplier<Wiring> wiring = form.value("wiring").map(wired::wiring).orElse(Loaded.never());
        Supplier<Acceptance> acceptance = form.value("acceptance")
                .map(node -> new AcceptanceReader(reading, wired.arcs()).acceptance(node))
                .orElse(Loaded.never());
        Supplier<Simulation> simulation = form.value("simulation")
                .map(node -> new SimulationReader(reading, wired).simulation(node))
                .orElse(Loaded.never());
        return () -> new Fixture(
                path.toString(),
                FileNames.withoutEnding(path),
                title,
                wiring.get(),
                acceptance.get(),
                simulation.get());
    }

    /** The file's tree, laid over that of the file it is based on. Empty if that or this could not be read. */
    private Optional<Node> tree(Path file, Place asked) {
        files.add(file);
        seen.add(FileNames.identity(file));
        Optional<Node> over =
                TextFile.read(file, asked, mistakes).flatMap(text -> YamlTree.of(file.toString(), text, mistakes));
        Optional<Entry> basedOn =
                over.filter(Entries.class::isInstance).flatMap(node -> ((Entries) node).entry("based-on"));
        if (basedOn.isEmpty()) {
            return over;
        }
        Optional<Node> under = reading.text(basedOn.get().value(), "the fixture that this one is based on")
                .flatMap(name -> under(name, basedOn.get().value().place(), file));
        return under.map(node -> Overlay.merged(node, over.orElseThrow()));
    }

    private Optional<Node> under(String name, Place asked, Path from) {
        Path file;
        try {
            file = from.resolveSibling(name).normalize();
        } catch (InvalidPathException e) {
            reading.mistake(asked, Quoted.of(name) + " is no file name");
            return Optional.empty();
        }
        if (files.size() > PartCalls.DEPTH_MAX) {
            reading.mistake(asked, "fixtures are based on fixtures more than " + PartCalls.DEPTH_MAX + " deep");
            return Optional.empty();
        }
        if (seen.contains(FileNames.identity(file))) {
            reading.mistake(asked, Quoted.of(name) + " is based on this file, in a circle");
            return Optional.empty();
        }
        Optional<Node> node = tree(file, asked);
        boolean fixture = node.isPresent()
                && node.get() instanceof Entries map
                && map.entry("fixture").isPresent();
        if (node.isPresent() && !fixture) {
            reading.mistake(asked, Quoted.of(name) + " is no fixture");
        }
        return fixture ? node : Optional.empty();
    }
}
