package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.SafetyLimit;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.time.WallClock;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.Collectors;

/** What the harness itself can tell whoever goes through the checklist: calibrations, limits, readings. */
final class ArmingFacts {
    private static final long READ_US = 600_000;
    /** On a busy machine the first readings come late. */
    private static final long LATE_US = 5_000_000;

    private static final long SLICE_US = 50_000;

    private final BenchFile file;
    private final PressureDisplay pressures;
    private final InputText text;
    private final OverdueCalibrations overdue;

    /**
     * What there is to tell.
     *
     * @param lines       for who reads the checklist
     * @param implausible clauses, each of a reading that cannot be right or is not to be had
     */
    record Told(List<String> lines, List<String> implausible) {
        Told {
            lines = List.copyOf(lines);
            implausible = List.copyOf(implausible);
        }
    }

    /** Opens the bench that is to be armed; nothing is armed by it. */
    interface Opened {
        Bench open() throws BenchFailure;
    }

    ArmingFacts(BenchFile file, PressureDisplay pressures, WallClock wall) {
        this.file = file;
        this.pressures = pressures;
        this.text = new InputText(file, pressures);
        this.overdue = OverdueCalibrations.of(file, wall);
    }

    /** Calibrations and limits. */
    List<String> ofTheFile() {
        List<String> lines = new ArrayList<>();
        overdue.lines().forEach(line -> lines.add("! " + line));
        if (!file.undated().isEmpty()) {
            lines.add("! No date says until when the calibration holds of " + String.join(", ", file.undated()) + ".");
        }
        if (lines.isEmpty()) {
            lines.add("Every calibration is in date.");
        }
        if (file.limits().isEmpty()) {
            lines.add("! " + file.file() + " gives the bench no safety limits.");
        } else {
            lines.add("Safety limits that go to the bench: "
                    + file.limits().stream().map(this::limit).collect(Collectors.joining(", ")) + ".");
        }
        List<String> live = drivenWhenSafe();
        if (!live.isEmpty()) {
            lines.add("! Made safe it still drives " + String.join(", ", live) + ".");
        }
        return lines;
    }

    /** What is not off, or not at nothing, in the state that the file calls safe; some valves are to be so. */
    private List<String> drivenWhenSafe() {
        Map<String, Point> points = file.points().stream().collect(Collectors.toMap(Point::name, Function.identity()));
        return file.outputs().stream()
                .filter(output -> points.get(output.point()).safe() != output.counts(0))
                .map(output -> output.actuator().key() + " at "
                        + new OutputText(output, points.get(output.point()), pressures)
                                .of(points.get(output.point()).safe()))
                .toList();
    }

    /** All of it: of the file, and of what has a level and reads now. */
    Told all(Opened opened) {
        List<String> lines = new ArrayList<>(ofTheFile());
        LiveReadings live = new LiveReadings();
        try (Bench bench = opened.open()) {
            bench.watch();
            long endUs = bench.nowUs() + READ_US;
            long lastUs = endUs + LATE_US;
            while (bench.nowUs() < endUs || bench.nowUs() < lastUs && wanting(live)) {
                bench.advance(bench.nowUs() + SLICE_US, live);
            }
        } catch (BenchFailure e) {
            lines.add("! No readings: " + e.getMessage() + ".");
            return new Told(lines, List.of("there are no readings: " + e.getMessage()));
        }
        return readings(lines, live);
    }

    /** Whether nothing has come of an input that is sampled. */
    private boolean wanting(LiveReadings live) {
        return file.inputs().stream()
                .anyMatch(input ->
                        !input.signal().digital() && live.count(input.point()).isEmpty());
    }

    private Told readings(List<String> lines, LiveReadings live) {
        List<String> implausible = new ArrayList<>();
        lines.add("Readings before arming:");
        for (Input input : file.inputs()) {
            if (!input.signal().digital()) {
                String key = input.signal().key();
                String now = text.now(input, live);
                Optional<String> doubt = doubt(input, live.count(input.point()));
                doubt.ifPresent(why -> implausible.add(key + " reads " + now + ": " + why));
                String mark = doubt.map(why -> "  ! " + why).orElse("");
                lines.add(String.format(Locale.ROOT, "  %-28s %s%s", key, now, mark));
            }
        }
        live.takeTroubles().forEach(trouble -> lines.add("! bench: " + trouble));
        return new Told(lines, implausible);
    }

    /** A gauge reads below nothing only if it is wrong, and a live one not at the end of its range. */
    private Optional<String> doubt(Input input, OptionalInt counts) {
        if (input.signal().dimension() != Dimension.PRESSURE) {
            return Optional.empty();
        }
        if (counts.isEmpty()) {
            return Optional.of("not read");
        }
        if (text.atEnd(input, counts.getAsInt())) {
            return Optional.of("not plausible");
        }
        Calibration calibration = input.calibration().orElseThrow();
        double twice = 2 * Math.hypot(calibration.standard(), Math.hypot(calibration.drift(), calibration.noise()));
        return calibration.value(counts.getAsInt()) < -twice
                ? Optional.of("below zero, not plausible")
                : Optional.empty();
    }

    private String limit(SafetyLimit limit) {
        Map<Signal, Input> inputs =
                file.inputs().stream().collect(Collectors.toMap(Input::signal, Function.identity()));
        Input input = inputs.get(limit.signal());
        return limit.signal().key()
                + limit.lowest()
                        .map(counts -> " at least " + text.value(input, counts))
                        .orElse("")
                + limit.most()
                        .map(counts -> " at most " + text.value(input, counts))
                        .orElse("");
    }
}
