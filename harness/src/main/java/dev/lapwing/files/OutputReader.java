package dev.lapwing.files;

import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.files.Pairs.Pair;
import dev.lapwing.files.Pairs.Side;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.quantity.Dimension;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Stream;

/** Reads which point drives which actuator. */
final class OutputReader {
    private static final Side COUNTS = Side.of(Dimension.CONVERTER_COUNT);

    private final Reading reading;
    private final PointReader points;
    private final Pairs pairs;
    private final List<Supplier<Output>> outputs = new ArrayList<>();

    OutputReader(Reading reading, PointReader points) {
        this.reading = reading;
        this.points = points;
        this.pairs = new Pairs(reading);
    }

    void read(Node node) {
        reading.entries(node, "a map from actuators to points")
                .ifPresent(map -> map.entries().forEach(this::output));
    }

    List<Output> outputs() {
        return outputs.stream().map(Supplier::get).toList();
    }

    private void output(Entry entry) {
        Optional<Actuator> actuator = actuator(entry);
        Optional<Form> form = reading.form(entry.value(), Shapes.OUTPUT);
        if (form.isEmpty()) {
            return;
        }
        boolean digital = actuator.map(Actuator::digital).orElse(false);
        Optional<Point> point = form.get()
                .value("point")
                .flatMap(node -> actuator.isEmpty()
                        ? points.find(node, PointKind::output, "'analog-out' or 'digital-out'")
                        : points.find(
                                node,
                                kind -> kind.output() && kind.digital() == digital,
                                digital
                                        ? "'digital-out', for this actuator is on or off"
                                        : "'analog-out', 'pulse-out' or 'pwm-out'"));
        point.ifPresent(p -> points.use(p, entry.key(), entry.place()));
        Optional<Scale> scale = actuator.flatMap(a -> scale(a, point, form.get()));
        outputs.add(() -> new Output(
                actuator.orElseThrow(),
                point.orElseThrow().name(),
                scale.orElseThrow().zero(),
                scale.orElseThrow().countsPerUnit(),
                entry.place()));
    }

    private record Scale(double zero, double countsPerUnit) {}

    private Optional<Scale> scale(Actuator actuator, Optional<Point> point, Form form) {
        if (actuator.digital()) {
            if (form.has("scale")) {
                reading.mistake(form.place("scale"), "'scale' stands with an actuator that is on or off");
            }
            return Optional.of(new Scale(0, 1));
        }
        if (!form.has("scale")) {
            if (actuator instanceof Actuator.PowerHandle) {
                return Optional.of(new Scale(0, 1));
            }
            reading.mistake(form.place(), "'scale' is missing: '" + actuator.key() + "' has a level");
            return Optional.empty();
        }
        Node node = form.value("scale").orElseThrow();
        String example = actuator.dimension().example();
        return pairs.pairs(node, Side.of(actuator.dimension()), COUNTS, "two pairs of " + example + " and counts")
                .flatMap(two -> line(two, point, node));
    }

    private Optional<Scale> line(List<Pair> two, Optional<Point> point, Node node) {
        if (two.size() > 2) {
            reading.mistake(
                    node.place(), two.size() + " points stand here", "two, for a scale is one straight line", "");
            return Optional.empty();
        }
        point.ifPresent(p -> two.forEach(pair -> points.checkCount(p, pair.right(), pair.place())));
        double values = two.get(1).left().base() - two.get(0).left().base();
        double counts = two.get(1).right().base() - two.get(0).right().base();
        if (values == 0 || counts == 0) {
            String found = values == 0 ? "both points have the same value" : "both points have the same count";
            reading.mistake(node.place(), found, "two that differ", "");
            return Optional.empty();
        }
        double countsPerUnit = counts / values;
        return Optional.of(
                new Scale(two.get(0).right().base() - two.get(0).left().base() * countsPerUnit, countsPerUnit));
    }

    private Optional<Actuator> actuator(Entry entry) {
        Optional<Actuator> actuator = Keys.actuator(entry.key());
        if (actuator.isEmpty()) {
            List<String> kinds = Stream.concat(
                            Stream.of("handle", "power-handle", "speed", "supply"),
                            Arrays.stream(SwitchKind.values()).map(SwitchKind::text))
                    .toList();
            String head = entry.key().contains("/")
                    ? entry.key().substring(0, entry.key().indexOf('/'))
                    : entry.key();
            if (kinds.contains(head)) {
                String whole = head.equals("supply") ? "a key such as 'supply/ep'" : "'" + head + "'";
                reading.mistake(entry.place(), Quoted.of(entry.key()) + " names no actuator", whole, "");
            } else {
                reading.unknown(entry.place(), "actuator", head, kinds);
            }
            return Optional.empty();
        }
        if (actuator.get() instanceof Actuator.Supply supply && !Signals.SUPPLIES.contains(supply.name())) {
            reading.unknown(entry.place(), "supply", supply.name(), Signals.SUPPLIES);
            return Optional.empty();
        }
        if (actuator.get() instanceof Actuator.Switch which
                && !which.of().matches(SwitchPlaces.pattern(which.kind()))) {
            String found = Quoted.of(entry.key()) + " names no actuator";
            reading.mistake(entry.place(), found, "a key such as " + SwitchPlaces.example(which.kind()), "");
            return Optional.empty();
        }
        return actuator;
    }
}
