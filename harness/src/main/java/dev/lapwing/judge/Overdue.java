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
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The channels whose calibration did not hold on the day of the run, or was not made yet. Whatever rests on one of them
 * says nothing of the unit, good or bad; it refers to one finding for the channel, which says all of it and what would
 * mend it.
 *
 * @param lapses by the key of the channel's signal, and again by the name of its point
 */
record Overdue(Map<String, Lapse> lapses) {

    static Overdue of(BenchFile bench, LocalDate day) {
        Map<String, Lapse> lapses = new LinkedHashMap<>();
        for (Input input : bench.inputs()) {
            input.calibration()
                    .filter(calibration -> !calibration.holdsOn(day))
                    .map(calibration -> new Lapse(bench.file(), input, calibration, day))
                    .ifPresent(lapse -> {
                        lapses.put(input.signal().key(), lapse);
                        lapses.put(input.point(), lapse);
                    });
        }
        return new Overdue(lapses);
    }

    /** A calibration that held no longer. */
    record Lapse(String file, Input input, Calibration calibration, LocalDate day) {
        private String signal() {
            return input.signal().key();
        }

        private String id() {
            return "calibration/" + signal();
        }

        /** Of what rested on it. */
        private Relied speaksAgainst(Finding finding) {
            String when = early()
                    ? "was made on " + calibration.date() + ", after the run"
                    : "held until " + calibration.due();
            String because = "Not relied upon, as the calibration of " + signal() + " " + when + " (" + id() + "): "
                    + finding.because();
            return new Relied(Findings.inconclusive(finding, because), Optional.of(this));
        }

        /** The day cannot be true. */
        private boolean early() {
            return calibration.madeAfter(day);
        }

        private Finding finding() {
            String whatAndWhen =
                    "The calibration of " + signal() + " (point " + input.point() + ", made on " + calibration.date();
            String because = early()
                    ? whatAndWhen + ") is younger than the run, which was on " + day
                            + " by the clock of the machine. Set that clock and run it again."
                    : whatAndWhen + ") held until " + calibration.due() + " and the run was on " + day
                            + ". Calibrate it with 'bench calibrate " + file + " --signal " + signal()
                            + "' and run it again.";
            return Finding.unmeasured(
                    id(),
                    "the calibration of " + signal() + " holds on the day of the run",
                    input.place().toString(),
                    Verdict.INCONCLUSIVE,
                    because,
                    Optional.empty(),
                    Optional.empty());
        }
    }

    /**
     * The finding, or that it is not relied upon.
     *
     * @param read what it was told from, besides the signals of its marks and the points in its budget
     */
    Relied of(Finding finding, List<Signal> read) {
        if (!finding.verdict().decides() || lapses.isEmpty()) {
            return Relied.asItIs(finding);
        }
        return restsOn(finding, read).stream()
                .filter(lapses::containsKey)
                .map(lapses::get)
                .findFirst()
                .map(lapse -> lapse.speaksAgainst(finding))
                .orElseGet(() -> Relied.asItIs(finding));
    }

    /** One finding for each channel that any of those referred to. */
    List<Finding> told(List<Relied> findings) {
        Set<Lapse> referredTo =
                findings.stream().flatMap(one -> one.lapse().stream()).collect(Collectors.toSet());
        return lapses.values().stream()
                .distinct()
                .filter(referredTo::contains)
                .map(Lapse::finding)
                .toList();
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
