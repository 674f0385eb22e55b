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
 * Calibrations of a bench that no longer hold, or that were made later than today, told before anything is run.
 *
 * @param today the day in UTC
 */
record OverdueCalibrations(BenchFile bench, LocalDate today) {

    static OverdueCalibrations of(BenchFile bench, WallClock wall) {
        return new OverdueCalibrations(bench, LocalDate.ofInstant(wall.now(), ZoneOffset.UTC));
    }

    /** One sentence for each day on which any was due or made. */
    List<String> lines() {
        return clauses().stream().map(Words::sentence).toList();
    }

    /** One clause for each day on which any was due or made. */
    List<String> clauses() {
        return bench.overdue(today).stream()
                .collect(Collectors.groupingBy(
                        this::when,
                        TreeMap::new,
                        Collectors.mapping(input -> input.signal().key(), Collectors.joining(", "))))
                .entrySet()
                .stream()
                .map(when -> "the calibration of " + when.getValue() + " " + when.getKey()
                        + ": what rests on it will be inconclusive")
                .toList();
    }

    private String when(Input input) {
        Calibration calibration = input.calibration().orElseThrow();
        return calibration.madeAfter(today)
                ? "was made on " + calibration.date() + ", but today is " + today + " by this machine's clock"
                : "was due on " + calibration.due();
    }
}
