package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.measure.Words;
import dev.lapwing.time.WallClock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * Calibrations of a bench that no longer hold, told before anything is run.
 *
 * @param today the day in UTC
 */
record OverdueCalibrations(BenchFile bench, LocalDate today) {

    static OverdueCalibrations of(BenchFile bench, WallClock wall) {
        return new OverdueCalibrations(bench, LocalDate.ofInstant(wall.now(), ZoneOffset.UTC));
    }

    /** One sentence for each day on which any was due. */
    List<String> lines() {
        return clauses().stream().map(Words::sentence).toList();
    }

    /** One clause for each day on which any was due. */
    List<String> clauses() {
        return bench.overdue(today).stream()
                .collect(Collectors.groupingBy(
                        OverdueCalibrations::due,
                        TreeMap::new,
                        Collectors.mapping(input -> input.signal().key(), Collectors.joining(", "))))
                .entrySet()
                .stream()
                .map(due -> "the calibration of " + due.getValue() + " was due on " + due.getKey()
                        + ": what rests on it will be inconclusive")
                .toList();
    }

    private static String due(Input input) {
        return input.calibration().map(Calibration::due).orElseThrow();
    }
}
