package dev.lapwing.judge;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.naming.Signal;
import dev.lapwing.uncertainty.Estimate;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The channels whose calibration no longer held on the day of the run. Whatever rests on one of them says nothing of
 * the unit, good or bad.
 *
 * @param why why a channel is not relied upon and what would mend it, a clause; by the key of its signal, and again by
 *            the name of its point
 */
record Overdue(Map<String, String> why) {

    static Overdue of(BenchFile bench, LocalDate day) {
        Map<String, String> why = new LinkedHashMap<>();
        for (Input input : bench.inputs()) {
            input.calibration()
                    .filter(calibration -> !calibration.holdsOn(day))
                    .map(calibration -> clause(bench, input, calibration, day))
                    .ifPresent(clause -> {
                        why.put(input.signal().key(), clause);
                        why.put(input.point(), clause);
                    });
        }
        return new Overdue(why);
    }

    private static String clause(BenchFile bench, Input input, Calibration calibration, LocalDate day) {
        String signal = input.signal().key();
        return "the calibration of " + signal + " (point " + input.point() + ", made on " + calibration.date()
                + ") held until " + calibration.due() + " and the run was on " + day
                + "; calibrate it with 'bench calibrate "
                + bench.file() + " --signal " + signal + "' and run it again";
    }

    /**
     * The finding, or that it is not relied upon.
     *
     * @param read what it was told from, besides the signals of its marks and the points in its budget
     */
    Finding of(Finding finding, List<Signal> read) {
        boolean decided = finding.verdict() == Verdict.PASS || finding.verdict() == Verdict.FAIL;
        if (!decided || why.isEmpty()) {
            return finding;
        }
        Optional<String> first = restsOn(finding, read).stream()
                .filter(why::containsKey)
                .map(why::get)
                .findFirst();
        return first.map(clause ->
                        Findings.inconclusive(finding, "Not relied upon, as " + clause + ": " + finding.because()))
                .orElse(finding);
    }

    /** Keys of signals and names of points. */
    private static Set<String> restsOn(Finding finding, List<Signal> read) {
        Set<String> names = new LinkedHashSet<>();
        read.forEach(signal -> names.add(signal.key()));
        finding.marks().stream().map(Mark::signal).forEach(names::add);
        finding.measured().stream()
                .flatMap((Estimate measured) -> measured.components().stream())
                .flatMap(part -> Stream.of(part.source().split("/")).skip(1).limit(1))
                .forEach(names::add);
        return names;
    }
}
