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

/**
 * Which of the bench's channels are under suspicion. What was measured by one of them says nothing of the unit, good or
 * bad.
 *
 * @param suspects id of the finding that says so, by the key of the signal
 */
record Trust(Map<String, String> suspects) {

    /** Of what came of the bench's own checks: each that is outside names its suspects by its marks. */
    static Trust of(Collection<Finding> benchChecks) {
        Map<String, String> suspects = new LinkedHashMap<>();
        for (Finding check : benchChecks) {
            if (check.verdict() == Verdict.FAIL) {
                check.marks().forEach(mark -> suspects.putIfAbsent(mark.signal(), check.id()));
            }
        }
        return new Trust(suspects);
    }

    /** A bench check that is outside is a suspicion, and no fault of the unit. */
    static Finding suspicion(Finding check) {
        return check.verdict() == Verdict.FAIL
                ? inconclusive(check, "Suspicion of the bench: " + check.because())
                : check;
    }

    /**
     * The finding, or that it is not relied upon.
     *
     * @param signals what it looks at, where its marks do not tell what decided it
     */
    Finding of(Finding finding, List<Signal> signals) {
        if (finding.verdict() != Verdict.PASS && finding.verdict() != Verdict.FAIL) {
            return finding;
        }
        List<String> decided = finding.marks().isEmpty()
                ? signals.stream().map(Signal::key).toList()
                : finding.marks().stream().map(Mark::signal).distinct().toList();
        Optional<String> suspect =
                decided.stream().filter(suspects::containsKey).findFirst();
        return suspect.map(key -> inconclusive(
                        finding,
                        "Not relied upon, as " + suspects.get(key) + " puts " + key + " under suspicion: "
                                + finding.because()))
                .orElse(finding);
    }

    private static Finding inconclusive(Finding finding, String because) {
        return new Finding(
                finding.id(),
                finding.sentence(),
                finding.place(),
                Verdict.INCONCLUSIVE,
                because,
                finding.measured(),
                finding.quantity(),
                finding.limit(),
                finding.margin(),
                finding.window(),
                finding.marks());
    }
}
