package dev.lapwing.files;

import dev.lapwing.files.Node.Entry;
import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Handle.Arc;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.IntStream;

/** Reads a fixture's wiring, and keeps what the other blocks refer to. */
final class WiringReader {
    static final int VEHICLES_MAX = 24;

    private static final Range NOMINAL_VOLTS = new Range(10, 1500);

    private final Reading reading;
    private final Figures figures;
    private final Map<String, Double> positions = new LinkedHashMap<>();
    private final Map<String, Arc> arcs = new LinkedHashMap<>();
    private List<String> wires = List.of();
    private Optional<Integer> vehicles = Optional.empty();

    WiringReader(Reading reading) {
        this.reading = reading;
        this.figures = new Figures(reading);
    }

    /** The block, to be made only if there is no mistake. */
    Supplier<Wiring> wiring(Node node) {
        Optional<Form> read = reading.form(node, Shapes.WIRING);
        if (read.isEmpty()) {
            return Loaded.never();
        }
        Form form = read.get();
        vehicles = form.value("vehicles").flatMap(n -> reading.whole(n, 1, VEHICLES_MAX, "a number of vehicles"));
        double volts = form.value("nominal-supply")
                .flatMap(n -> figures.figure(n, NOMINAL_VOLTS, Dimension.VOLTAGE))
                .map(Quantity::base)
                .orElse(0.0);
        form.value("handle").flatMap(n -> reading.form(n, Shapes.HANDLE)).ifPresent(this::handle);
        int notches = form.value("power-notches")
                .flatMap(n -> reading.whole(n, 0, Stimuli.NOTCH_MAX, "a number of notches"))
                .orElse(0);
        wires = form.value("wires").map(this::names).orElse(List.of());
        List<Ability> abilities = form.value("abilities")
                .map(n -> reading.choices(n, "ability", Reading.byText(Ability.values(), Ability::text)))
                .orElse(List.of());
        if (abilities.contains(Ability.POWER_NOTCHES) && notches == 0) {
            reading.mistake(form.place("power-notches"), "the unit has the ability 'power-notches' and no notch");
        }
        Set<DesignOption> design = form.value("design").map(this::design).orElse(Set.of());
        return () -> new Wiring(
                vehicles.orElseThrow(),
                volts,
                new Handle(positions, arcs),
                notches,
                wires,
                Set.copyOf(abilities),
                new Design(design));
    }

    /** Names of the arcs that were read. */
    Set<String> arcs() {
        return arcs.keySet();
    }

    /** Wires at the unit's connector. */
    List<String> wires() {
        return wires;
    }

    /** Smallest distance of neighbouring positions of the handle, in degrees; empty if they could not be read. */
    OptionalDouble positionGap() {
        List<Double> angles = List.copyOf(positions.values());
        return angles.size() < Shapes.POSITIONS.required().size()
                ? OptionalDouble.empty()
                : IntStream.range(1, angles.size())
                        .mapToDouble(i -> angles.get(i) - angles.get(i - 1))
                        .min();
    }

    /** Vehicles of the train; empty if that could not be read. */
    Optional<Integer> vehicles() {
        return vehicles;
    }

    private void handle(Form form) {
        form.value("positions").flatMap(n -> reading.form(n, Shapes.POSITIONS)).ifPresent(this::positions);
        form.value("arcs")
                .flatMap(n -> reading.entries(n, "a map from names of arcs to their ends"))
                .ifPresent(map -> {
                    map.entries().forEach(this::arc);
                    Shapes.ARCS.stream()
                            .filter(arc -> map.entry(arc).isEmpty())
                            .forEach(arc -> reading.mistake(map.place(), "arc '" + arc + "' is missing"));
                });
    }

    private void positions(Form form) {
        String before = "";
        for (String position : Shapes.POSITIONS.required()) {
            Optional<Quantity> angle = form.value(position).flatMap(n -> figures.figure(n, Dimension.ANGLE));
            if (angle.isEmpty()) {
                continue;
            }
            if (!before.isEmpty() && angle.get().base() <= positions.get(before)) {
                String expected = "an angle above that of '" + before + "', for angles rise from release to emergency";
                reading.mistake(form.place(position), "position '" + position + "' is not beyond", expected, "");
            }
            positions.put(position, angle.get().base());
            before = position;
        }
    }

    private void arc(Entry entry) {
        reading.checkName(entry.key(), entry.place(), "a name such as 'ep-application'");
        reading.form(entry.value(), Shapes.ARC).ifPresent(form -> {
            Optional<String> from = end(form, "from");
            Optional<String> to = end(form, "to");
            if (from.isPresent() && from.equals(to)) {
                reading.mistake(form.place("to"), "the arc ends where it begins");
            }
            arcs.put(entry.key(), new Arc(from.orElse(""), to.orElse("")));
        });
    }

    private Optional<String> end(Form form, String key) {
        var known = Reading.byText(Shapes.POSITIONS.required().toArray(String[]::new), text -> text);
        return form.value(key).flatMap(n -> reading.choice(n, "position of the handle", known));
    }

    private List<String> names(Node node) {
        Set<String> names = new LinkedHashSet<>();
        for (Node item : reading.items(node, "a list of names of wires")) {
            reading.name(item, "the name of a wire").ifPresent(name -> {
                if (!names.add(name)) {
                    reading.mistake(item.place(), "wire '" + name + "' stands twice");
                }
            });
        }
        return new ArrayList<>(names);
    }

    private Set<DesignOption> design(Node node) {
        Set<DesignOption> chosen = new LinkedHashSet<>();
        reading.form(node, Shapes.DESIGN).ifPresent(form -> {
            for (DesignFlag flag : DesignFlag.values()) {
                var options = Reading.byText(flag.options().toArray(DesignOption[]::new), DesignOption::text);
                form.value(flag.text())
                        .flatMap(n -> reading.choice(n, "option of '" + flag.text() + "'", options))
                        .ifPresent(chosen::add);
            }
        });
        return chosen;
    }
}
