package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.Input;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.HandMade;
import dev.lapwing.measure.Limits;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Two transducers on one cylinder, each claimed to be good to 0.1 psi (k = 1): U of their difference is 0.28 psi. */
class TwinsTest {
    private static final String ONE = "brake-cylinder@1";
    private static final String TWIN = "brake-cylinder@1/twin";
    private static final String CHECK = "throughout/bench-twins-agree";

    /** Fills within 2 s from 5 s on, is let off from 25 s on. */
    private static final DoubleUnaryOperator CYLINDER =
            t -> t < 25 ? Math.max(0, Math.min(50, 25 * (t - 5))) : 50 * StrictMath.exp(-(t - 25) / 0.7);

    @Test
    void twinsThatReadAlikeWhileTheSignalRestsAndMovesAreRelied() {
        List<Finding> findings = judge(pair(t -> CYLINDER.applyAsDouble(t) + 0.1));
        assertThat(of(findings, CHECK).verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(findings, "level").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void theFirstOneMeasuresAndNoMeanOfBoth() {
        Finding level = of(judge(pair(t -> CYLINDER.applyAsDouble(t) + 0.2)), "level");
        assertThat(level.measured().orElseThrow().value() / PSI).isBetween(-0.02, 0.02);
        assertThat(level.measured().orElseThrow().components())
                .noneMatch(part -> part.source().contains("twin"));
    }

    @Test
    void aTwinThatDriftsPutsBothUnderSuspicionBeforeTheUnit() {
        DoubleUnaryOperator drifts = t -> CYLINDER.applyAsDouble(t) + 0.02 * t;
        List<Finding> findings = judge(pair(drifts));
        Finding suspicion = of(findings, CHECK);
        assertThat(suspicion.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(suspicion.because())
                .startsWith("Suspicion of the bench: Difference between brake cylinder at vehicle 1 and its twin")
                .contains("outside by")
                .endsWith("Look at brake-cylinder@1, brake-cylinder@1/twin: transducer, wiring, calibration.");
        assertThat(of(findings, "level").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(of(findings, "level").because()).contains(CHECK, ONE);
        assertThat(of(findings, "bad").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(of(findings, "other").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aTwinThatIsSlowIsFoundByTheMovement() {
        // A pinched tube: right at rest, 30 ms late in between.
        List<Finding> findings = judge(pair(t -> CYLINDER.applyAsDouble(t - 0.03)));
        assertThat(of(findings, CHECK).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void oneThatLooksHalfASampleLaterIsNotSlow() {
        List<Finding> findings = judge(pair(t -> CYLINDER.applyAsDouble(t - 0.001)));
        assertThat(of(findings, CHECK).verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aDeadTwinIsFound() {
        HandMade run = new HandMade(40, 5)
                .pressure(ONE, CYLINDER)
                .dead(TWIN, CYLINDER, 20, 50)
                .pressure("brake-cylinder@2", CYLINDER);
        assertThat(of(judge(run), CHECK).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void errorsAsClaimedAreHardlyEverSuspected() {
        // With errors drawn as claimed, |d| > U is expected once in 22 pairs (4.55 %), noise and claims of time aside.
        SplittableRandom random = new SplittableRandom(3);
        int suspected = 0;
        int pairs = 400;
        for (int i = 0; i < pairs; i++) {
            double one = 0.1 * random.nextGaussian();
            double other = 0.1 * random.nextGaussian();
            HandMade run = new HandMade(4, i).pressure(ONE, t -> 30 + one).pressure(TWIN, t -> 30 + other);
            suspected += of(judge(run), CHECK).verdict() == Verdict.PASS ? 0 : 1;
        }
        // Four standard deviations of the binomial count of 400 to either side.
        assertThat(suspected).isBetween(2, 34);
    }

    private static HandMade pair(DoubleUnaryOperator twin) {
        return new HandMade(40, 4).pressure(ONE, CYLINDER).pressure(TWIN, twin).pressure("brake-cylinder@2", CYLINDER);
    }

    private static List<Finding> judge(HandMade run) {
        Bench bench = new Bench();
        List<PlannedExpectation> asked =
                List.of(level("level", ONE, 50), level("bad", ONE, 40), level("other", "brake-cylinder@2", 50));
        asked.forEach(one -> bench.watched(one.id(), 10, 20, true));
        List<Input> inputs = List.of(input(ONE, 1), input(TWIN, 2));
        return new Judge(PressureDisplay.PSI)
                .judge(Bench.plan(inputs, asked, AlwaysProperty.BENCH_TWINS_AGREE), run, bench.course());
    }

    private static Input input(String key, int line) {
        return new Input(Keys.signal(key).orElseThrow(), "P-" + key, Optional.empty(), new Place("b", line, 1));
    }

    private static PlannedExpectation level(String id, String key, double psi) {
        Signal signal = Keys.signal(key).orElseThrow();
        return new PlannedExpectation(
                id, id, "t:1:1", new Check.SettledLevel(signal, psi * PSI, 2, 1, Optional.empty(), Limits.psi(-2, 2)));
    }

    private static Finding of(List<Finding> findings, String id) {
        return findings.stream().filter(f -> f.id().equals(id)).findFirst().orElseThrow();
    }
}
