package dev.lapwing.plan;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Stream;
import dev.lapwing.fixture.Acceptance;
import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Figure;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Law;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.UnreadableQuantity;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.source.Place;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/** A small unit and bench, made by hand, that the tests of the resolver share. */
final class Models {

    static final Place FIXTURE = new Place("fixtures/small.yaml", 7, 5);
    static final Place BENCH = new Place("bench-config/small.yaml", 9, 3);

    private Models() {}

    static Subject unit() {
        return unit(Set.of(Ability.EP_BRAKE, Ability.AUTOMATIC_BRAKE, Ability.DEADMAN, Ability.EP_SUPPLY_LAMP));
    }

    /** A train of one vehicle. */
    static Subject alone() {
        return unit(1, Set.of(Ability.EP_BRAKE));
    }

    static Subject unit(Set<Ability> abilities) {
        return unit(4, abilities);
    }

    private static Subject unit(int vehicles, Set<Ability> abilities) {
        Handle handle = new Handle(
                Map.of("release", 0.0, "full-ep", 40.0, "lap", 55.0, "full-service", 85.0, "emergency", 105.0),
                Map.of(
                        "ep-application", new Handle.Arc("release", "full-ep"),
                        "automatic-application", new Handle.Arc("lap", "full-service")));
        Wiring wiring = new Wiring(
                vehicles,
                110,
                handle,
                4,
                List.of("application", "holding", "traction", "ep-supply-lamp"),
                abilities,
                new Design(firstOptions()));
        return new Subject(
                "small",
                "Harrowmere test unit",
                wiring,
                new Acceptance("HLR-T-1", "A. Tester", figures(), laws(), Map.of()));
    }

    /** With another figure, or one in another's place. */
    static Subject with(Subject unit, Figure figure) {
        Map<String, Figure> figures = new HashMap<>(unit.acceptance().figures());
        figures.put(figure.name(), figure);
        return new Subject(
                unit.fixture(),
                unit.unit(),
                unit.wiring(),
                new Acceptance(
                        unit.acceptance().issue(),
                        unit.acceptance().approver(),
                        figures,
                        unit.acceptance().laws(),
                        unit.acceptance().curves()));
    }

    static BenchFile bench() {
        return bench(
                inputs(),
                List.of(
                        "handle",
                        "power-handle",
                        "speed",
                        "supply/ep",
                        "deadman",
                        "acknowledgement",
                        "master-switch",
                        "reverser/forward",
                        "reverser/reverse",
                        "wire-feed/application",
                        "alarm-valve/vehicle-2",
                        "crew-valve/vehicle-4",
                        "hose-burst/brake-pipe-behind-2",
                        "parting/behind-2",
                        "cock/brake-pipe-behind-2",
                        "other-cab-charge/far"));
    }

    static List<String> inputs() {
        List<String> inputs = new ArrayList<>(List.of(
                "wire/application",
                "wire/holding",
                "wire/traction",
                "wire/ep-supply-lamp",
                "supply/ep",
                "handle-angle"));
        for (int vehicle = 1; vehicle <= 4; vehicle++) {
            inputs.add("brake-pipe@" + vehicle);
            inputs.add("brake-cylinder@" + vehicle);
        }
        return inputs;
    }

    /** Transducers reach 150 psi, meters 200 V, the handle 120 degrees; all are sampled every 2 ms. */
    static BenchFile bench(List<String> inputs, List<String> outputs) {
        List<Point> points = new ArrayList<>();
        List<Input> carried = new ArrayList<>();
        List<Output> driven = new ArrayList<>();
        List<String> sampled = new ArrayList<>();
        for (String key : inputs) {
            Signal signal = Keys.signal(key).orElseThrow();
            String point = "I" + carried.size();
            boolean digital = signal.digital();
            points.add(point(point, digital ? PointKind.DIGITAL_IN : PointKind.ANALOG_IN, digital ? 1 : 65535));
            carried.add(new Input(
                    signal, point, digital ? Optional.empty() : Optional.of(calibration(signal.dimension())), BENCH));
            if (!digital) {
                sampled.add(point);
            }
        }
        for (String key : outputs) {
            Actuator actuator = Keys.actuator(key).orElseThrow();
            String point = "O" + driven.size();
            boolean handle = key.equals("handle");
            boolean digital = actuator.digital();
            points.add(point(
                    point,
                    digital ? PointKind.DIGITAL_OUT : PointKind.ANALOG_OUT,
                    digital ? 1 : handle ? 60_000 : 1000));
            driven.add(new Output(actuator, point, 0, handle ? 500 : 1, BENCH));
        }
        return new BenchFile(
                "bench-config/small.yaml",
                "small-bench",
                new LinkChoice.Simulated(0.001, 0, 0, 0, 0),
                20e-6,
                points,
                carried,
                driven,
                List.of(new Stream("quick", sampled, 2000)));
    }

    private static Point point(String name, PointKind kind, int max) {
        return new Point(name, kind, 0, max, 0, 0, 20, 0);
    }

    static Figure value(String name, String value) {
        return figure(name, value, null, null);
    }

    static Figure atMost(String name, String upper) {
        return figure(name, null, null, upper);
    }

    static Figure atLeast(String name, String lower) {
        return figure(name, null, lower, null);
    }

    static Figure between(String name, String lower, String upper) {
        return figure(name, null, lower, upper);
    }

    static Quantity quantity(String text) {
        try {
            return Quantity.parse(text);
        } catch (UnreadableQuantity e) {
            throw new IllegalArgumentException(e);
        }
    }

    private static Figure figure(String name, String value, String lower, String upper) {
        Dimension dimension = Arrays.asList(value, lower, upper).stream()
                .filter(text -> text != null)
                .map(text -> quantity(text).dimension())
                .findFirst()
                .orElseThrow();
        return new Figure(
                name,
                FIXTURE,
                dimension,
                base(value),
                base(lower),
                base(upper),
                DecisionRule.GUARDED,
                OptionalDouble.empty(),
                "common practice, no source");
    }

    private static OptionalDouble base(String text) {
        return text == null
                ? OptionalDouble.empty()
                : OptionalDouble.of(quantity(text).base());
    }

    private static Set<DesignOption> firstOptions() {
        Set<DesignOption> options = new LinkedHashSet<>();
        for (DesignFlag flag : DesignFlag.values()) {
            options.add(flag.options().get(0));
        }
        return options;
    }

    private static Map<String, Law> laws() {
        return Map.of(
                "self-lapping",
                new Law(
                        "self-lapping",
                        FIXTURE,
                        "ep-application",
                        List.of(
                                new Law.Point(0, 0),
                                new Law.Point(1, quantity("50 psi").base())),
                        "common practice, no source"));
    }

    private static Map<String, Figure> figures() {
        Map<String, Figure> figures = new HashMap<>();
        List.of(
                        value("charged-level", "65 psi"),
                        value("ep-rise-level", "45 psi"),
                        value("settling-time", "3 s"),
                        atMost("ep-rise-time", "3 s"),
                        atLeast("not-too-soon", "2 s"),
                        between("charged-band", "69 psi", "71.5 psi"),
                        between("lapping-tolerance", "-2 psi", "2 psi"),
                        atMost("lapping-hysteresis", "2 psi"),
                        atLeast("step-up", "1.5 psi"),
                        atMost("step-down", "-1.5 psi"),
                        atMost("cylinder-leak", "1.5 psi"),
                        atMost("pipe-leak", "1 psi/min"),
                        atMost("lapping-pulses", "2 times"),
                        atMost("released-level", "1 psi"),
                        atMost("beyond-the-gauge", "200 psi"),
                        atLeast("lamp-supply", "0.7 Un"))
                .forEach(figure -> figures.put(figure.name(), figure));
        always().forEach(figure -> figures.put(figure.name(), figure));
        return figures;
    }

    /** Figures for the always-on properties, named after what they are. */
    private static List<Figure> always() {
        List<Figure> always = new ArrayList<>();
        for (AlwaysProperty property : AlwaysProperty.values()) {
            for (String name : property.ofBench() ? List.<String>of() : property.figures()) {
                if (name.endsWith("-leak")) {
                    always.add(atMost(name, "1 psi/min"));
                } else if (name.endsWith("-supply")) {
                    always.add(value(name, "0.7 Un"));
                } else if (name.endsWith("-time") || name.endsWith("-gap")) {
                    always.add(value(name, "1 s"));
                } else {
                    always.add(atMost(name, "53 psi"));
                }
            }
        }
        return always;
    }

    private static Calibration calibration(Dimension dimension) {
        String top = switch (dimension) {
            case PRESSURE -> "150 psi";
            case VOLTAGE -> "200 V";
            default -> "120 degrees";
        };
        return new Calibration(
                List.of(
                        new Calibration.Pair(0, 0),
                        new Calibration.Pair(65535, quantity(top).base())),
                1,
                1,
                1,
                "2026-10-01",
                "2027-10-01",
                "HLR-CAL-1");
    }
}
