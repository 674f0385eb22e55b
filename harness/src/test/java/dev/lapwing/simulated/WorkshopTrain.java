package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Stream;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.files.Loaded;
import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.source.Place;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** The shipped healthy train on a bench made for tests, those here and those of the runner. */
public final class WorkshopTrain {
    public static final double PSI = 6894.757293168361;
    public static final int VEHICLES = 4;
    public static final int FILTER_US = 800;
    public static final int STAMP_US = 20;
    public static final LinkChoice.Simulated EXACT = new LinkChoice.Simulated(1e-3, 0, 0, 0, 0);
    public static final LinkChoice.Simulated USUAL = new LinkChoice.Simulated(1e-3, 200, 4e-4, 2e-4, 1e-5);

    private static final Place PLACE = new Place("test", 1, 1);

    private WorkshopTrain() {}

    public static Wiring wiring() {
        return wiring(VEHICLES);
    }

    public static Wiring wiring(int vehicles) {
        Map<String, Double> positions =
                Map.of("release", 0.0, "full-ep", 40.0, "lap", 55.0, "full-service", 85.0, "emergency", 105.0);
        Map<String, Handle.Arc> arcs = Map.of(
                "ep-application", new Handle.Arc("release", "full-ep"),
                "automatic-application", new Handle.Arc("lap", "full-service"));
        Design design = new Design(Arrays.stream(DesignFlag.values())
                .map(flag -> flag.options().get(0))
                .collect(Collectors.toSet()));
        List<String> wires = List.of("application", "holding", "traction", "ep-supply-lamp");
        return new Wiring(vehicles, 110, new Handle(positions, arcs), 4, wires, EnumSet.allOf(Ability.class), design);
    }

    public static Simulation simulation() {
        return new Simulation(Simulation.ControllerKind.CLASSIC, figures(), List.of());
    }

    /** The healthy figures of the shipped classic unit, to be changed by a test. */
    public static Map<SimulationFigure, Simulation.Spread> figures() {
        Loaded<Fixture> classic = FixtureFiles.load(Path.of("fixtures", "classic.yaml"));
        return new EnumMap<>(classic.value().orElseThrow().simulation().figures());
    }

    /** A bench with 12 channels at 500 Hz, the unit's wires, and everything that can be driven. */
    public static BenchFile bench(LinkChoice link) {
        List<Point> points = new ArrayList<>();
        List<Input> inputs = new ArrayList<>();
        List<Output> outputs = new ArrayList<>();
        List<String> streamed = new ArrayList<>();
        for (String key : sampled()) {
            String name = "A" + (points.size() + 1);
            points.add(new Point(name, PointKind.ANALOG_IN, 0, 65535, 0, FILTER_US, STAMP_US, 0));
            inputs.add(new Input(signal(key), name, Optional.of(calibration(key)), PLACE));
            streamed.add(name);
        }
        for (String wire : List.of("application", "holding", "traction", "ep-supply-lamp", "reverser-unlocked")) {
            String name = "D" + wire.length() + wire.charAt(0);
            points.add(new Point(name, PointKind.DIGITAL_IN, 0, 1, 0, 0, 10, 200));
            inputs.add(new Input(new Signal.Wire(wire), name, Optional.empty(), PLACE));
        }
        for (String key : driven()) {
            Actuator actuator = Keys.actuator(key).orElseThrow();
            String name = "O" + (outputs.size() + 1);
            boolean digital = actuator.digital();
            points.add(new Point(
                    name, digital ? PointKind.DIGITAL_OUT : PointKind.ANALOG_OUT, 0, digital ? 1 : 60000, 0, 0, 0, 0));
            outputs.add(new Output(actuator, name, 0, countsPerUnit(actuator), PLACE));
        }
        Stream quick = new Stream("quick", streamed, 2000);
        return new BenchFile("test", "workshop", link, 20e-6, points, inputs, outputs, List.of(quick));
    }

    private static double countsPerUnit(Actuator actuator) {
        if (actuator instanceof Actuator.Handle) {
            return 500;
        }
        if (actuator instanceof Actuator.Speed) {
            return 1800;
        }
        return actuator instanceof Actuator.Supply ? 300 : 1;
    }

    private static List<String> sampled() {
        List<String> all = new ArrayList<>();
        for (int k = 1; k <= VEHICLES; k++) {
            all.add("brake-pipe@" + k);
            all.add("brake-cylinder@" + k);
        }
        all.addAll(List.of("auxiliary-reservoir@1", "auxiliary-reservoir@4", "supply/ep", "handle-angle"));
        return all;
    }

    private static List<String> driven() {
        List<String> all = new ArrayList<>(List.of(
                "handle",
                "power-handle",
                "speed",
                "supply/ep",
                "supply/control",
                "deadman",
                "acknowledgement",
                "master-switch",
                "reverser/forward",
                "reverser/reverse",
                "wire-feed/application",
                "wire-feed/holding",
                "other-cab-charge/far",
                "parting/behind-2",
                "hose-burst/brake-pipe-behind-2",
                "cock/brake-pipe-behind-2"));
        for (int k = 1; k <= VEHICLES; k++) {
            all.add("alarm-valve/vehicle-" + k);
            all.add("crew-valve/vehicle-" + k);
        }
        return all;
    }

    private static Calibration calibration(String key) {
        Calibration.Pair zero = new Calibration.Pair(0, 0);
        double full = key.startsWith("supply/") ? 200 : key.equals("handle-angle") ? 120 : 150 * PSI;
        return new Calibration(
                List.of(zero, new Calibration.Pair(65535, full)),
                full * 5e-4,
                full * 3e-4,
                full * 3e-4,
                "2026-09-14",
                "2027-09-14",
                "test");
    }

    public static Signal signal(String key) {
        return Keys.signal(key).orElseThrow();
    }

    /** Name of the point that drives an actuator. */
    public static String output(BenchFile bench, String actuator) {
        return bench.outputs().stream()
                .filter(o -> o.actuator().key().equals(actuator))
                .findFirst()
                .orElseThrow()
                .point();
    }

    /** Name of the point that carries a signal. */
    public static String input(BenchFile bench, String signal) {
        return bench.inputs().stream()
                .filter(i -> i.signal().key().equals(signal))
                .findFirst()
                .orElseThrow()
                .point();
    }
}
