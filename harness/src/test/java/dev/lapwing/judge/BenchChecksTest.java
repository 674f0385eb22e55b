package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;
import static dev.lapwing.sequence.AlwaysProperty.BENCH_AIR_FLOWS_DOWN;
import static dev.lapwing.sequence.AlwaysProperty.BENCH_CYLINDERS_AGREE;
import static dev.lapwing.sequence.AlwaysProperty.BENCH_MAIN_RESERVOIRS_AGREE;
import static dev.lapwing.sequence.AlwaysProperty.BENCH_ORDERS_REACH_A_CYLINDER;
import static dev.lapwing.sequence.AlwaysProperty.BENCH_PIPES_AGREE;
import static dev.lapwing.sequence.AlwaysProperty.CYLINDER_BELOW_LIMIT;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.HandMade;
import dev.lapwing.measure.Limits;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Transducers that are off, swapped or dead, and units that are truly bad. */
class BenchChecksTest {
    private static final double END = 60;

    /** A train that charges, brakes by the pipe at 20 s, releases at 35 s; signals by key. */
    private static Map<String, DoubleUnaryOperator> train() {
        Map<String, DoubleUnaryOperator> train = new TreeMap<>();
        for (int vehicle = 1; vehicle <= 4; vehicle++) {
            train.put("brake-pipe@" + vehicle, t -> t < 5 ? 14 * t : t < 20 ? 70 : t < 35 ? 60 : 70);
            train.put("auxiliary-reservoir@" + vehicle, t -> t < 5 ? 14 * t : t < 20 ? 70 : t < 35 ? 60 : 69);
            train.put("brake-cylinder@" + vehicle, t -> t < 20 || t >= 36 ? 0 : 30);
        }
        train.put("main-reservoir-pipe@1", t -> 95);
        train.put("supply-reservoir@1", t -> 95);
        return train;
    }

    private static HandMade run(Map<String, DoubleUnaryOperator> train) {
        HandMade run = new HandMade(END, 4).supply("supply/ep", t -> 110);
        train.forEach(run::pressure);
        return run;
    }

    private static Map<String, DoubleUnaryOperator> with(String key, DoubleUnaryOperator reading) {
        Map<String, DoubleUnaryOperator> train = train();
        train.put(key, reading);
        return train;
    }

    private static final DoubleUnaryOperator READ_HIGH =
            t -> train().get("brake-cylinder@2").applyAsDouble(t) + 8;

    /** Expectations that the pipe stands at 60 psi and the cylinder at 30 psi during the brake. */
    private static List<Finding> judge(HandMade run, Bench course) {
        PlannedExpectation pipe = level("pipe", "brake-pipe@2", 60);
        PlannedExpectation cylinder = level("cylinder", "brake-cylinder@2", 30);
        PlannedExpectation other = level("other", "brake-cylinder@3", 30);
        for (String id : List.of("pipe", "cylinder", "other")) {
            course.watched(id, 20, 30, true);
        }
        return new Judge(PressureDisplay.PSI)
                .judge(
                        Bench.plan(
                                List.of(pipe, cylinder, other),
                                BENCH_PIPES_AGREE,
                                BENCH_CYLINDERS_AGREE,
                                BENCH_AIR_FLOWS_DOWN,
                                BENCH_MAIN_RESERVOIRS_AGREE,
                                BENCH_ORDERS_REACH_A_CYLINDER,
                                CYLINDER_BELOW_LIMIT),
                        run,
                        course.course());
    }

    private static PlannedExpectation level(String id, String key, double psi) {
        Signal signal = Keys.signal(key).orElseThrow();
        return new PlannedExpectation(
                id, id, "t:1:1", new Check.SettledLevel(signal, psi * PSI, 5, 2, Optional.empty(), Limits.psi(-2, 2)));
    }

    private static Finding of(List<Finding> findings, String id) {
        return findings.stream().filter(f -> f.id().equals(id)).findFirst().orElseThrow();
    }

    private static HandMade wired(HandMade run, double... holding) {
        return run.wire("application").wire("holding", holding);
    }

    @Test
    void aGoodBenchAndAGoodUnitPass() {
        List<Finding> findings = judge(wired(run(train())), new Bench());
        assertThat(of(findings, "pipe").verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(findings, "cylinder").verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(findings, "throughout/bench-pipes-agree").verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(findings, "throughout/bench-cylinders-agree").verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(findings, "throughout/bench-air-flows-down").verdict()).isEqualTo(Verdict.PASS);
        assertThat(of(findings, "throughout/bench-orders-reach-a-cylinder").verdict())
                .isEqualTo(Verdict.NONE);
    }

    @Test
    void aTransducerOfThePipeThatIsOffIsSuspectedBeforeTheUnit() {
        DoubleUnaryOperator off = t -> train().get("brake-pipe@2").applyAsDouble(t) - 5;
        List<Finding> findings = judge(wired(run(with("brake-pipe@2", off))), new Bench());
        assertThat(of(findings, "pipe").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(of(findings, "pipe").because()).contains("bench-pipes-agree", "brake-pipe@2", "outside by");
        Finding suspicion = of(findings, "throughout/bench-pipes-agree");
        assertThat(suspicion.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(suspicion.because())
                .startsWith("Suspicion of the bench: Difference between brake pipe at vehicle 2");
        assertThat(of(findings, "other").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aTransducerOfACylinderThatIsOffIsSuspectedWhereItsReservoirSaysSo() {
        List<Finding> findings = judge(wired(run(with("brake-cylinder@2", READ_HIGH))), new Bench());
        assertThat(of(findings, "cylinder").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(of(findings, "throughout/bench-cylinders-agree").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(of(findings, "other").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aPassIsNotReliedUponWhereASuspectDidNotDecideIt() {
        // Truly at 30 psi, cylinder 2 does not stay above 34 psi; it reads 38 psi, and cylinder 3 has less to spare.
        Check.Temporal both = new Check.Temporal(
                new PlannedCondition.AllOf(List.of(above("brake-cylinder@2", 34), above("brake-cylinder@3", 28))),
                true,
                OptionalDouble.of(5),
                0,
                Limits.atLeast(Dimension.PRESSURE, 0));
        List<Finding> findings = new Judge(PressureDisplay.PSI)
                .judge(
                        Bench.plan(
                                List.of(new PlannedExpectation("both", "both", "t:1:1", both)), BENCH_CYLINDERS_AGREE),
                        wired(run(with("brake-cylinder@2", READ_HIGH))),
                        new Bench().watched("both", 22, 30, true).course());

        assertThat(of(findings, "both").verdict())
                .as(of(findings, "both").because())
                .isEqualTo(Verdict.INCONCLUSIVE);
    }

    private static PlannedCondition above(String key, double psi) {
        return new PlannedCondition.Above(Keys.signal(key).orElseThrow(), psi * PSI);
    }

    @Test
    void swappedTransducersAreBothSuspected() {
        Map<String, DoubleUnaryOperator> train = train();
        DoubleUnaryOperator pipe = train.get("brake-pipe@2");
        train.put("brake-pipe@2", train.get("brake-cylinder@2"));
        train.put("brake-cylinder@2", pipe);
        List<Finding> findings = judge(wired(run(train)), new Bench());
        assertThat(of(findings, "pipe").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(of(findings, "throughout/cylinder-below-limit").verdict()).isNotEqualTo(Verdict.PASS);
    }

    @Test
    void aPipeThatIsWrongEverywhereIsTheUnitsFault() {
        Map<String, DoubleUnaryOperator> train = train();
        for (int vehicle = 1; vehicle <= 4; vehicle++) {
            DoubleUnaryOperator good = train.get("brake-pipe@" + vehicle);
            train.put("brake-pipe@" + vehicle, t -> t > 20 && t < 35 ? 55 : good.applyAsDouble(t));
        }
        List<Finding> findings = judge(wired(run(train)), new Bench());
        assertThat(of(findings, "pipe").verdict()).isEqualTo(Verdict.FAIL);
        assertThat(of(findings, "throughout/bench-pipes-agree").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void oneCylinderThatLostItsAirIsNoSuspicionOfTheBench() {
        // It leaks, and its reservoir feeds it: both are low.
        Map<String, DoubleUnaryOperator> train = with("brake-cylinder@2", t -> t < 20 || t >= 36 ? 0 : 15);
        train.put("auxiliary-reservoir@2", t -> t < 5 ? 14 * t : t < 20 ? 70 : t < 35 ? 50 : 69);
        List<Finding> findings = judge(wired(run(train)), new Bench());
        assertThat(of(findings, "cylinder").verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    void aTrainThatWasPartedIsNotComparedAcross() {
        Map<String, DoubleUnaryOperator> train = with("brake-pipe@4", t -> t < 10 ? Math.min(70, 14 * t) : 0);
        train.put("brake-pipe@3", train.get("brake-pipe@4"));
        Bench shut = new Bench().drives(9.5, "cock/brake-pipe-behind-2", 1);
        assertThat(of(judge(wired(run(train)), shut), "throughout/bench-pipes-agree")
                        .verdict())
                .isEqualTo(Verdict.PASS);
    }

    @Test
    void mainReservoirsThatCannotReadOtherwiseAreHeldAgainstEachOther() {
        String check = "throughout/bench-main-reservoirs-agree";
        Map<String, DoubleUnaryOperator> two = with("main-reservoir-pipe@4", t -> 95);
        assertThat(of(judge(wired(run(two)), new Bench()), check).verdict()).isEqualTo(Verdict.PASS);

        two.put("main-reservoir-pipe@4", t -> 92);
        assertThat(of(judge(wired(run(two)), new Bench()), check).because())
                .contains("Main reservoir pipe at vehicle 1 above main reservoir pipe at vehicle 4 at rest was 3")
                .endsWith("Look at main-reservoir-pipe@1, main-reservoir-pipe@4: transducer, wiring, calibration.");

        // The pipe at the rear may be empty behind a cock that was shut.
        Bench shut = new Bench().drives(0.1, "cock/brake-pipe-behind-2", 1);
        assertThat(of(judge(wired(run(two)), shut), check).verdict()).isEqualTo(Verdict.PASS);

        // Air that another cab draws steadily through the train falls in pressure on its way.
        Bench charged = new Bench().drives(0.1, "other-cab-charge/far", 1);
        assertThat(of(judge(wired(run(two)), charged), check).verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aSupplyReservoirKeepsItsAirAndIsNeverBelowItsPipe() {
        String check = "throughout/bench-main-reservoirs-agree";
        Map<String, DoubleUnaryOperator> falls = with("main-reservoir-pipe@1", t -> t < 30 ? 95 : 70);
        assertThat(of(judge(wired(run(falls)), new Bench()), check).verdict()).isEqualTo(Verdict.PASS);

        Map<String, DoubleUnaryOperator> low = with("supply-reservoir@1", t -> 90);
        assertThat(of(judge(wired(run(low)), new Bench()), check).because())
                .contains("Main reservoir pipe at vehicle 1 above supply reservoir at vehicle 1 at rest was 5");
    }

    @Test
    void anOrderThatNoCylinderAnswersIsSuspectedOfTheBenchAndOneThatDoesNotIsNot() {
        Map<String, DoubleUnaryOperator> silent = train();
        for (int vehicle = 1; vehicle <= 4; vehicle++) {
            silent.put("brake-cylinder@" + vehicle, t -> 0);
        }
        HandMade none = run(silent).wire("application", 19, 32).wire("holding", 19, 32);
        List<Finding> findings = judge(none, new Bench());
        assertThat(of(findings, "cylinder").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(of(findings, "throughout/bench-orders-reach-a-cylinder").because())
                .contains("Suspicion of the bench", "without an answer of any cylinder");

        HandMade one = run(with("brake-cylinder@2", t -> 0))
                .wire("application", 19, 32)
                .wire("holding", 19, 32);
        assertThat(of(judge(one, new Bench()), "cylinder").verdict()).isEqualTo(Verdict.FAIL);

        // A unit whose holding wire is dead cannot be answered: its own fault.
        HandMade dead = run(silent).wire("application", 19, 32).wire("holding");
        assertThat(of(judge(dead, new Bench()), "cylinder").verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    void aDeadTransducerOfWhatFeedsHidesNothing() {
        HandMade run = run(train()).dead("brake-pipe@4", t -> t < 5 ? 14 * t : 70, 2, 87);
        Finding finding = of(judge(run, new Bench()), "throughout/bench-air-flows-down");
        assertThat(finding.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(finding.because()).contains("vehicle 4", "looks dead");
    }

    @Test
    void anOrderThatBeganWhileReportsWereLostHasNoTime() {
        Map<String, DoubleUnaryOperator> answers = with("brake-cylinder@1", t -> t < 19.06 ? 0 : 30);
        HandMade known = run(answers).wire("application", 19, 32).wire("holding", 19, 32);
        HandMade lost = run(answers)
                .wire("application", 19.5, 32)
                .wire("holding", 19, 32)
                .lost("wire/application", 18.5, 19.5);
        String check = "throughout/bench-orders-reach-a-cylinder";
        assertThat(of(judge(known, new Bench()), check).verdict()).isEqualTo(Verdict.PASS);
        Finding finding = of(judge(lost, new Bench()), check);
        assertThat(finding.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(finding.because()).contains("were lost");
    }

    /** It may have come as early as its reports were lost. */
    @Test
    void anAnswerThatNobodySawComeIsAsDoubtfulAsItWasUnseen() {
        HandMade seen = run(with("brake-cylinder@1", t -> t < 19.06 ? 0 : 30))
                .wire("application", 19, 32)
                .wire("holding", 19, 32);
        String check = "throughout/bench-orders-reach-a-cylinder";
        Estimate known = of(judge(seen, new Bench()), check).measured().orElseThrow();
        HandMade lost = run(with("brake-cylinder@1", t -> t < 19.36 ? 0 : 30))
                .wire("application", 19, 32)
                .wire("holding", 19, 32)
                .lost("brake-cylinder@1", 19.05, 19.36);
        Finding finding = of(judge(lost, new Bench()), check);
        assertThat(finding.measured().orElseThrow().covers(known.value())).isTrue();
        assertThat(finding.measured().orElseThrow().dominant().orElseThrow().source())
                .startsWith("unseen/");
    }
}
