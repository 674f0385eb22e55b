package dev.lapwing.files;

import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.DesignFlag;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The keys of every map in the files: the grammar, but for values. */
final class Shapes {
    static final Shape SEQUENCE = Shape.of("a sequence")
            .must("sequence", "purpose", "steps")
            .may("needs", "needs-design", "include", "continues", "prepare", "start", "breaks", "tidy-up", "parts");
    static final Shape PARTS = Shape.of("a file of parts").must("parts").may("include");

    static final Shape HANDLE_OVER = Shape.of("'handle'").must("to").may("over");
    static final Shape HANDLE_ALONG = Shape.of("'handle'").must("at", "of").may("over");
    static final Shape VALVE = Shape.of("a valve").must("at", "to");
    static final Shape HOSE = Shape.of("'hose'").must("of", "behind", "to");
    static final Shape COCK = Shape.of("'cock'").must("of", "behind", "to");
    static final Shape COUPLING = Shape.of("'coupling'").must("behind", "to");
    static final Shape RANGE = Shape.of("a range").must("from", "to", "by");

    /** What the bench does, each the only key of its step. */
    static final List<String> STIMULI = List.of(
            "handle",
            "deadman",
            "acknowledgement",
            "master-switch",
            "reverser",
            "power-handle",
            "speed",
            "supply",
            "feed-wire",
            "alarm-valve",
            "crew-valve",
            "hose",
            "coupling",
            "cock",
            "other-cab");

    /** Other steps with one key. */
    static final List<String> PLAIN_STEPS = List.of("together", "wait", "wait-until", "part", "expect");

    /** Steps that stand beside a {@code do} with steps of their own. */
    static final List<String> STEPS_WITH_DO = List.of("for-each", "only-if", "meanwhile");

    /** What may follow, by its key. */
    static final Map<String, Shape> EXPECTATIONS = byName(
            Shape.of("settles-at-law")
                    .must("signal", "law", "tolerance", "after", "over")
                    .may("remember"),
            Shape.of("settles-at").must("signal", "level", "after", "over").may("remember"),
            Shape.of("holds").must("signal", "leak", "after", "over"),
            Shape.of("rises-above").must("signal", "level", "within"),
            Shape.of("falls-below").must("signal", "level", "within"),
            Shape.of("stays-between").must("signal", "band").may("over"),
            Shape.of("switches").must("wire", "to", "within"),
            Shape.of("pulses-at-most").must("wire", "count").may("over"),
            Shape.of("never").must("condition").may("longer-than", "over"),
            Shape.of("comes-before").must("first", "then", "by", "within"),
            Shape.of("comes-true").must("condition").may("margin"),
            Shape.of("stays-true").must("condition").may("margin", "over"),
            Shape.of("agrees").must("signal", "with", "difference", "after", "over"),
            Shape.of("follows").must("signal", "curve"),
            Shape.of("compares").must("expectation", "with", "limit"),
            Shape.of("moves").must("signal", "change", "after", "over"),
            Shape.of("repeats").must("signal", "remembered", "difference", "after", "over"),
            Shape.of("changes").must("signal", "change", "from", "to"),
            Shape.of("responds")
                    .must("signal", "term", "limit", "after", "over")
                    .may("share", "band", "first", "last", "states"),
            Shape.of("begins-to-rise").must("signal", "within"),
            Shape.of("begins-to-fall").must("signal", "within"),
            Shape.of("rises-at").must("signal", "rate", "width", "over"),
            Shape.of("falls-at").must("signal", "rate", "width", "over"),
            Shape.of("travels")
                    .must("pressure", "direction", "spacing", "speed", "within")
                    .may("spacing-within"),
            Shape.of("lasts").must("condition", "time", "within"),
            Shape.of("recovers").must("signal", "remembered", "band", "within"),
            Shape.of("departs").must("signal", "remembered", "difference").may("over"),
            Shape.of("graduates").must("levels", "term", "limit").may("with", "answer"));

    /** Conditions that look ahead. */
    static final Map<String, Shape> AHEAD = byName(
            Shape.of("always").must("to", "holds").may("from"),
            Shape.of("eventually").must("to", "holds").may("from"),
            Shape.of("until").must("to", "holds", "then").may("from"));

    static final Shape FIXTURE = Shape.of("a fixture")
            .must("fixture", "wiring", "acceptance", "simulation")
            .may("based-on");
    static final Shape WIRING = Shape.of("'wiring'")
            .must("vehicles", "nominal-supply", "handle", "power-notches", "wires", "abilities", "design");
    static final Shape HANDLE = Shape.of("'handle'").must("positions", "arcs");
    static final Shape POSITIONS =
            Shape.of("'positions'").must("release", "full-ep", "lap", "full-service", "emergency");
    /** Arcs that every handle has; there may be others. */
    static final List<String> ARCS = List.of("ep-application", "automatic-application");

    static final Shape ARC = Shape.of("an arc").must("from", "to");
    static final Shape DESIGN = Shape.of("'design'")
            .must(Arrays.stream(DesignFlag.values()).map(DesignFlag::text).toArray(String[]::new));
    static final Shape ACCEPTANCE = Shape.of("'acceptance'")
            .must("issue", "approved-by", "figures", "laws")
            .may("curves");
    static final List<String> FIGURE_KINDS = List.of("value", "at-most", "at-least", "between");
    static final Shape FIGURE = Shape.of("an acceptance figure")
            .must("source")
            .may("value", "at-most", "at-least", "between", "rule", "risk", "largest-uncertainty");
    static final Shape LAW = Shape.of("a law").must("arc", "points", "source");
    static final Shape CURVE = Shape.of("a curve").must("source").may("lower", "upper");
    static final Shape SIMULATION = Shape.of("'simulation'")
            .must("controller", "train", "wires", "cab", "air", "unit")
            .may("wire-faults");
    static final Shape WIRE_FAULT =
            Shape.of("a wire fault").must("wire", "behind", "fault").may("with", "ohms");

    static final Shape BENCH = Shape.of("a bench")
            .must("bench", "link", "clock", "points", "inputs", "outputs", "streams")
            .may("calibrations", "limits");
    static final Shape LINK = Shape.of("'link'").may("simulated", "serial", "mqtt", "modbus");
    static final Shape SIMULATED = Shape.of("'simulated'")
            .must("step", "command-delay", "transducer-error", "transducer-noise", "clock-error")
            .may("span-error");
    static final Shape SERIAL = Shape.of("'serial'").must("device").may("baud", "beat", "speed");
    static final Shape MQTT =
            Shape.of("'mqtt'").must("broker", "name").may("beat", "speed", "credentials", "authority");
    static final Shape MODBUS = Shape.of("'modbus'").must("device", "poll").may("baud", "parity", "round-trip");
    static final Shape CALIBRATION = Shape.of("a calibration")
            .must("points", "uncertainty", "drift", "noise", "date", "certificate")
            .may("span", "due", "operator");
    static final Shape INPUT = Shape.of("an input").must("point").may("calibration", "tube", "tube-within");
    static final Shape OUTPUT = Shape.of("an output").must("point").may("scale");
    static final Shape LIMIT = Shape.of("a safety limit").may("at-most", "at-least");
    static final Shape STREAM = Shape.of("a stream").must("every", "points");

    private Shapes() {}

    /** The figures of one block of a simulation, such as {@code train}, without the block's name. */
    static List<String> figuresOf(String block) {
        return Arrays.stream(SimulationFigure.values())
                .map(SimulationFigure::path)
                .filter(path -> path.startsWith(block + "."))
                .map(path -> path.substring(block.length() + 1))
                .toList();
    }

    private static Map<String, Shape> byName(Shape... shapes) {
        Map<String, Shape> named = new LinkedHashMap<>();
        for (Shape shape : shapes) {
            named.put(shape.name(), new Shape("'" + shape.name() + "'", shape.required(), shape.optional()));
        }
        return Collections.unmodifiableMap(named);
    }
}
