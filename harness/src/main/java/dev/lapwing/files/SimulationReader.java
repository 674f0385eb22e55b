package dev.lapwing.files;

import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.Simulation.Spread;
import dev.lapwing.fixture.Simulation.WireFault;
import dev.lapwing.fixture.Simulation.WireFault.Kind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.SimulationFigure.Scope;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Place;
import dev.lapwing.unit.ControllerUnderTest;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/** Reads a fixture's simulation: what a simulated unit and train do, each figure with the spread of healthy ones. */
final class SimulationReader {
    static final List<String> BLOCKS = List.of("train", "wires", "cab", "air", "unit");

    private final Reading reading;
    private final Figures figures;
    private final Spreads spreads;
    private final WiringReader wiring;

    /** {@code wiring} has been read before. */
    SimulationReader(Reading reading, WiringReader wiring) {
        this.reading = reading;
        this.figures = new Figures(reading);
        this.spreads = new Spreads(reading);
        this.wiring = wiring;
    }

    /** The block, to be made only if there is no mistake. */
    Supplier<Simulation> simulation(Node node) {
        Optional<Form> read = reading.form(node, Shapes.SIMULATION);
        if (read.isEmpty()) {
            return Loaded.never();
        }
        Form form = read.get();
        Optional<ControllerKind> controller = form.value("controller")
                .flatMap(n ->
                        reading.choice(n, "controller", Reading.byText(ControllerKind.values(), ControllerKind::text)));
        Map<SimulationFigure, Spread> all = new EnumMap<>(SimulationFigure.class);
        Map<SimulationFigure, Place> places = new EnumMap<>(SimulationFigure.class);
        for (String block : BLOCKS) {
            Shape shape = shape(block, controller);
            form.value(block).flatMap(n -> reading.form(n, shape)).ifPresent(figures -> {
                for (String key : shape.keys()) {
                    SimulationFigure figure =
                            SimulationFigure.at(block + "." + key).orElseThrow();
                    places.put(figure, figures.place(key));
                    figures.value(key)
                            .flatMap(n -> spreads.spread(n, figure))
                            .ifPresent(spread -> all.put(figure, spread));
                }
            });
        }
        SimulationOrder.check(all, places, reading);
        checkDetent(all, places);
        List<WireFault> faults = form.value("wire-faults").map(this::faults).orElse(List.of());
        return () -> new Simulation(controller.orElseThrow(), all, faults);
    }

    /** The figures of a block; those of the unit that this controller does not use may be left out. */
    static Shape shape(String block, Optional<ControllerKind> controller) {
        List<String> all = Shapes.figuresOf(block);
        List<String> required = all.stream()
                .filter(key -> {
                    SimulationFigure figure =
                            SimulationFigure.at(block + "." + key).orElseThrow();
                    return figure.scope() != Scope.UNIT
                            || controller
                                    .map(c -> ControllerUnderTest.figures(c).contains(figure))
                                    .orElse(false);
                })
                .toList();
        List<String> optional =
                all.stream().filter(key -> !required.contains(key)).toList();
        return new Shape("'" + block + "'", required, optional);
    }

    /** Contacts of neighbouring positions of the handle must not be made at once. */
    private void checkDetent(Map<SimulationFigure, Spread> all, Map<SimulationFigure, Place> places) {
        Spread detent = all.get(SimulationFigure.HANDLE_DETENT);
        if (detent != null && wiring.positionGap().isPresent()) {
            double gap = wiring.positionGap().getAsDouble();
            if (gap > 0 && gap <= 2 * (detent.nominal() + detent.halfWidth())) {
                String expected = "less than half the smallest distance of the handle's positions";
                reading.mistake(
                        places.get(SimulationFigure.HANDLE_DETENT), "'handle-detent' is too wide", expected, "");
            }
        }
    }

    private List<WireFault> faults(Node node) {
        List<WireFault> faults = new ArrayList<>();
        for (Node item : reading.itemsOrNone(node, "a list of wire faults")) {
            reading.form(item, Shapes.WIRE_FAULT).ifPresent(form -> faults.add(fault(form)));
        }
        return faults;
    }

    private WireFault fault(Form form) {
        Optional<String> wire = form.value("wire").flatMap(this::wire);
        int couplings = Math.max(1, wiring.vehicles().orElse(WiringReader.VEHICLES_MAX) - 1);
        int behind = form.value("behind")
                .flatMap(n -> reading.whole(n, 1, couplings, "the number of the vehicle ahead of the coupling"))
                .orElse(1);
        Optional<Kind> kind = form.value("fault")
                .flatMap(n -> reading.choice(n, "wire fault", Reading.byText(Kind.values(), Kind::text)));
        Optional<String> with = form.value("with").flatMap(this::wire);
        Optional<Quantity> ohms = form.value("ohms").flatMap(n -> figures.figure(n, Dimension.RESISTANCE));
        kind.ifPresent(fault -> {
            only(form, "with", fault, Kind.CROSSED);
            only(form, "ohms", fault, Kind.RESISTANCE);
        });
        if (wire.isPresent() && wire.equals(with)) {
            reading.mistake(form.place("with"), "a wire is not crossed with itself");
        }
        return new WireFault(
                wire.orElse(""),
                behind,
                kind.orElse(Kind.OPEN),
                with.orElse(""),
                ohms.map(Quantity::base).orElse(0.0));
    }

    private Optional<String> wire(Node node) {
        var wires = Reading.byText(wiring.wires().toArray(String[]::new), wire -> wire);
        return wires.isEmpty() ? reading.name(node, "the name of a wire") : reading.choice(node, "wire", wires);
    }

    private void only(Form form, String key, Kind fault, Kind due) {
        if (fault == due && !form.has(key)) {
            reading.mistake(form.place(), "'" + key + "' is missing beside '" + due.text() + "'");
        }
        if (fault != due && form.has(key)) {
            String found = "'" + key + "' stands beside '" + fault.text() + "'";
            reading.mistake(form.place(key), found, "it only beside '" + due.text() + "'", "");
        }
    }
}
