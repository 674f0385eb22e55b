package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Calibration.Pair;
import dev.lapwing.bench.Input;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.HandMade;
import dev.lapwing.measure.Limits;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.Trouble.Kind;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.source.Place;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Whatever is refused is inconclusive, and its finding prints why and what would mend it. */
class RefusalsTest {
    private static final String KEY = "brake-cylinder@4";
    private static final Signal CYLINDER = Keys.signal(KEY).orElseThrow();
    private static final LocalDate DUE = LocalDate.of(2027, 3, 31);

    @Test
    void tooFewSamples() {
        GrowingTrace trace = new GrowingTrace();
        for (int i = 0; i < 10; i++) {
            trace.append(i * 1_000_000L + 100, (50 + 0.01 * i) * PSI);
        }
        assertThat(judged(new HandMade(10, 1).trace(CYLINDER, trace), level(2)))
                .startsWith("Not measured: only 1 samples of brake cylinder at vehicle 4 came where 250 were due")
                .endsWith("; look at the bench's stream.");
    }

    @Test
    void lostSamplesInTheWindow() {
        assertThat(judged(fill(t -> 50).lost(KEY, 7.1, 7.2), level(2)))
                .startsWith("Not measured: reports of brake cylinder at vehicle 4 were lost for 100 ms")
                .endsWith("; see to the bench's link and run it again.");
    }

    @Test
    void aSaturatedTransducer() {
        assertThat(judged(fill(t -> 200), level(2)))
                .startsWith("Not measured: brake cylinder at vehicle 4 stood at the end of its transducer's range, 200")
                .endsWith("; use a transducer whose range goes further.");
    }

    @Test
    void aStuckTransducer() {
        assertThat(judged(new HandMade(10, 1).pressure(KEY, t -> 50, 0), level(2)))
                .startsWith("Not measured: the transducer of brake cylinder at vehicle 4 gave the same count ")
                .endsWith(" times over and looks dead; check it and its wiring.");
    }

    @Test
    void anUncertaintyWiderThanTheTolerance() {
        assertThat(judged(fill(t -> 50), level(0.15)))
                .contains(
                        ": uncertainty too wide to decide, U = 0.2",
                        " psi where at most 0.15 psi serves; most of the uncertainty is calibration of P-" + KEY)
                .endsWith(": calibrate it more closely, or use a better transducer.");
    }

    /** Its one finding says the rest. */
    @Test
    void aCalibrationOutOfDate() {
        List<Pair> pairs = List.of(new Pair(0, 0), new Pair(60_000, 150 * PSI));
        Calibration calibration = new Calibration(pairs, 0.1 * PSI, 0, 0, "2026-03-31", DUE.toString(), "HLR-CAL-0901");
        Input input = new Input(CYLINDER, "P-" + KEY, Optional.of(calibration), new Place("b", 1, 1));
        Bench late = new Bench().on(DUE.plusDays(1));
        List<Finding> findings = judge(List.of(input), fill(t -> 50), level(2), late);
        assertThat(findings).extracting(Finding::verdict).containsOnly(Verdict.INCONCLUSIVE);
        assertThat(findings.get(0).because())
                .startsWith("Not relied upon, as the calibration of " + KEY + " held until 2027-03-31 (calibration/"
                        + KEY + "): ");
        assertThat(findings.get(1).id()).isEqualTo("calibration/" + KEY);
        assertThat(findings.get(1).because())
                .contains("held until 2027-03-31 and the run was on 2027-04-01")
                .endsWith("Calibrate it with 'bench calibrate b.yaml --signal " + KEY + "' and run it again.");
    }

    @Test
    void aStartConditionThatWasNotHeld() {
        Limit time = Limits.atMost(Dimension.TIME, 5);
        assertThat(judged(fill(t -> 30 + t), new Check.Crossing(CYLINDER, true, 25 * PSI, 5, time)))
                .startsWith("Not measured: brake cylinder at vehicle 4 was above 25 psi already before the stimulus")
                .endsWith("; let it start from the other side.");
    }

    /** The runner says what would mend it. */
    @Test
    void aStartThatIsNotReachedLeavesTheRunInconclusiveAndNothingAsked() {
        String why = "not reached: wait until it is so; see what keeps it from that, or allow more time";
        Bench stopped = new Bench().trouble(Kind.NOT_REACHED, 1, why);
        PlannedExpectation never = asked(level(2));
        List<Finding> findings =
                new Judge(PressureDisplay.PSI).judge(Bench.plan(List.of(never)), fill(t -> 50), stopped.course());
        assertThat(findings.get(0).verdict()).isEqualTo(Verdict.NONE);
        assertThat(findings)
                .filteredOn(one -> one.id().equals("run"))
                .singleElement()
                .satisfies(run -> {
                    assertThat(run.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
                    assertThat(run.because()).isEqualTo("N" + why.substring(1) + ".");
                });
    }

    private static Check level(double within) {
        return new Check.SettledLevel(CYLINDER, 50 * PSI, 6, 0.5, Optional.empty(), Limits.psi(-within, within));
    }

    private static HandMade fill(DoubleUnaryOperator psi) {
        return new HandMade(10, 1).pressure(KEY, psi);
    }

    private static PlannedExpectation asked(Check check) {
        return new PlannedExpectation("asked", "it is so", "t:1:1", check);
    }

    private static String judged(HandMade run, Check check) {
        List<Finding> findings = judge(List.of(), run, check, new Bench());
        assertThat(findings)
                .singleElement()
                .satisfies(one -> assertThat(one.verdict()).isEqualTo(Verdict.INCONCLUSIVE));
        return findings.get(0).because();
    }

    private static List<Finding> judge(List<Input> inputs, HandMade run, Check check, Bench bench) {
        bench.drives(1, "handle", 40).watched("asked", 1, 9, true);
        List<Finding> findings = new ArrayList<>(
                new Judge(PressureDisplay.PSI).judge(Bench.plan(inputs, List.of(asked(check))), run, bench.course()));
        findings.removeIf(one -> one.id().equals("left"));
        return findings;
    }
}
