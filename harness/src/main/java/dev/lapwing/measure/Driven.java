package dev.lapwing.measure;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Output;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Course.Executed;
import dev.lapwing.signal.Edges;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoublePredicate;

/**
 * What the bench drove when, from the commands as they were executed; before the first, every output is at its safe
 * value. A command of which it was never told when it was executed counts from when it was due.
 */
public final class Driven {
    private final BenchFile bench;
    private final List<Executed> executed;

    public Driven(BenchFile bench, Course course) {
        this.bench = bench;
        this.executed = course.executed().stream()
                .sorted(Comparator.comparingLong(Driven::atUs))
                .toList();
    }

    private static long atUs(Executed command) {
        return command.atUs().orElse(command.dueUs());
    }

    /** Bound of the error in the stamp of what was driven at that bench time, in µs; 0 if nothing was. */
    public long stampBoundUs(long atUs) {
        return executed.stream()
                .filter(command -> command.atUs().filter(at -> at == atUs).isPresent())
                .mapToLong(this::boundUs)
                .max()
                .orElse(0);
    }

    private long boundUs(Executed command) {
        Map<String, Integer> counts = new HashMap<>();
        for (Output output : bench.outputs()) {
            Double value = command.values().get(output.actuator().key());
            if (value != null) {
                counts.put(output.point(), output.counts(value));
            }
        }
        return bench.drivenBoundUs(counts);
    }

    /** True if the bench drives that actuator at all. */
    boolean drives(String actuator) {
        return bench.outputs().stream().anyMatch(o -> o.actuator().key().equals(actuator));
    }

    /** Keys of what the bench drives that begin so. */
    List<String> keys(String prefix) {
        return bench.outputs().stream()
                .map(o -> o.actuator().key())
                .filter(key -> key.startsWith(prefix))
                .toList();
    }

    /** Bench times, in µs, at which anything was driven; a ramp also at its end. */
    List<Long> changesUs() {
        List<Long> times = new ArrayList<>();
        for (Executed command : executed) {
            times.add(atUs(command));
            if (command.overUs() > 0) {
                times.add(atUs(command) + command.overUs());
            }
        }
        return times.stream().sorted().distinct().toList();
    }

    /** When a switch was at 1. */
    Edges on(String actuator) {
        return when(actuator, value -> value > 0.5);
    }

    /**
     * When an actuator's commanded value, in its base unit, was as asked. Along a ramp the value goes in a straight
     * line; it is looked at {@value #RAMP_LOOKS} times.
     */
    Edges when(String actuator, DoublePredicate asked) {
        double value = safe(actuator);
        Edges truth = new Edges(asked.test(value), Long.MIN_VALUE);
        for (Executed command : executed) {
            Double to = command.values().get(actuator);
            if (to == null) {
                continue;
            }
            long startUs = atUs(command);
            int looks = command.overUs() == 0 ? 1 : RAMP_LOOKS;
            for (int i = 1; i <= looks; i++) {
                long us = startUs + command.overUs() * i / looks;
                truth.append(us, asked.test(value + (to - value) * i / looks));
            }
            value = to;
        }
        return truth;
    }

    private static final int RAMP_LOOKS = 200;

    private double safe(String actuator) {
        for (Output output : bench.outputs()) {
            if (output.actuator().key().equals(actuator)) {
                return bench.points().stream()
                        .filter(point -> point.name().equals(output.point()))
                        .findFirst()
                        .map(point -> output.value(point.safe()))
                        .orElse(0.0);
            }
        }
        return 0;
    }
}
