package dev.lapwing.judge;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.naming.Signal;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Which of the bench's channels are not relied upon. What was measured by one of them says nothing of the unit, good or
 * bad.
 *
 * @param suspects id of the finding that puts it under suspicion, by the key of the signal
 * @param overdue  those whose calibration no longer held
 */
record Trust(Map<String, String> suspects, Overdue overdue) {

    /** Of what came of the bench's own checks: each that is outside names its suspects by its marks. */
    static Trust of(Collection<Finding> benchChecks, Overdue overdue) {
        Map<String, String> suspects = new LinkedHashMap<>();
        for (Finding check : benchChecks) {
            if (check.verdict() == Verdict.FAIL) {
                check.marks().forEach(mark -> suspects.putIfAbsent(mark.signal(), check.id()));
            }
        }
        return new Trust(suspects, overdue);
    }

    /**
     * A bench check that is outside is a suspicion, and no fault of the unit.
     *
     * @param read all that it looks at
     */
    Relied suspicion(Finding check, List<Signal> read) {
        return check.verdict() == Verdict.FAIL
                ? Relied.asItIs(Findings.inconclusive(
                        check,
                        "Suspicion of the bench: " + check.because() + " Look at " + channels(check)
                                + ": transducer, wiring, calibration."))
                : overdue.of(check, read);
    }

    private static String channels(Finding check) {
        return check.marks().stream().map(Mark::signal).distinct().collect(Collectors.joining(", "));
    }

    /**
     * The finding, or that it is not relied upon.
     *
     * @param signals what it looks at, where its marks do not tell what decided it
     * @param read    all that it looks at
     */
    Relied of(Finding finding, List<Signal> signals, List<Signal> read) {
        Relied relied = overdue.of(finding, read);
        return relied.finding().verdict().decides() ? Relied.asItIs(unsuspected(finding, signals, read)) : relied;
    }

    /** What is outside is so by what decided it; what passes is inside by all that it was read from. */
    private Finding unsuspected(Finding finding, List<Signal> signals, List<Signal> read) {
        Stream<String> marks = finding.marks().stream().map(Mark::signal);
        List<Signal> looked =
                finding.verdict() == Verdict.PASS ? read : finding.marks().isEmpty() ? signals : List.of();
        Optional<String> suspect = Stream.concat(marks, looked.stream().map(Signal::key))
                .filter(suspects::containsKey)
                .findFirst();
        return suspect.map(key -> Findings.inconclusive(
                        finding,
                        "Not relied upon, as " + suspects.get(key) + " puts " + key + " under suspicion: "
                                + finding.because()))
                .orElse(finding);
    }
}
