package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.SafetyLimit;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.time.WallClock;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.Collectors;

/** What the harness itself can tell whoever goes through the checklist: calibrations, limits, readings. */
final class ArmingFacts {
    private static final long READ_US = 600_000;
    private static final long SLICE_US = 50_000;

    private final BenchFile file;
    private final InputText text;
    private final OverdueCalibrations overdue;

    /** Opens the bench that is to be armed; nothing is armed by it. */
    interface Opened {
        Bench open() throws BenchFailure;
    }

    ArmingFacts(BenchFile file, PressureDisplay pressures, WallClock wall) {
        this.file = file;
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
        return lines;
    }

    /** What has a level and reads now, with what cannot be right. */
    List<String> readings(Opened opened) {
        LiveReadings live = new LiveReadings();
        try (Bench bench = opened.open()) {
            bench.watch();
            long endUs = bench.nowUs() + READ_US;
            while (bench.nowUs() < endUs) {
                bench.advance(Math.min(endUs, bench.nowUs() + SLICE_US), live);
            }
        } catch (BenchFailure e) {
            return List.of("! No readings: " + e.getMessage() + ".");
        }
        List<String> lines = new ArrayList<>(List.of("Readings before arming:"));
        for (Input input : file.inputs()) {
            if (!input.signal().digital()) {
                lines.add(String.format(
                        Locale.ROOT,
                        "  %-28s %s%s",
                        input.signal().key(),
                        text.now(input, live),
                        doubt(input, live.count(input.point()))));
            }
        }
        return lines;
    }

    /** A gauge reads below nothing only if it is wrong. */
    private static String doubt(Input input, OptionalInt counts) {
        if (counts.isEmpty() || input.signal().dimension() != Dimension.PRESSURE) {
            return "";
        }
        Calibration calibration = input.calibration().orElseThrow();
        double twice = 2 * Math.hypot(calibration.standard(), Math.hypot(calibration.drift(), calibration.noise()));
        return calibration.value(counts.getAsInt()) < -twice ? "  ! below zero: not plausible" : "";
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
