package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Calibration.Pair;
import dev.lapwing.bench.Input;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.HandMade;
import dev.lapwing.measure.Limits;
import dev.lapwing.measure.Measurement;
import dev.lapwing.measure.Measuring;
import dev.lapwing.measure.Words;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.source.Place;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What rests on a calibration that no longer held on the day of the run says nothing. */
class OverdueTest {
    private static final LocalDate DUE = LocalDate.of(2027, 3, 31);
    private static final LocalDate MADE = LocalDate.of(2026, 3, 31);
    private static final Words WORDS = new Words(PressureDisplay.PSI);
    private static final Signal OVERDUE = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final Signal GOOD = Keys.signal("brake-cylinder@2").orElseThrow();

    @Test
    void untilTheLastDayItIsReliedUpon() {
        assertThat(judge(DUE)).allMatch(finding -> finding.verdict() != Verdict.INCONCLUSIVE);
        assertThat(of("level", DUE).verdict()).isEqualTo(Verdict.PASS);
        assertThat(of("bad", DUE).verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    void fromTheNextDayOnNeitherPassNorFailRestsOnIt() {
        LocalDate late = DUE.plusDays(1);
        for (String id : List.of("level", "bad", "difference", "compared", "throughout/cylinder-below-limit")) {
            assertThat(of(id, late).verdict()).as(id).isEqualTo(Verdict.INCONCLUSIVE);
        }
        assertThat(of("level", late).because())
                .startsWith("Not relied upon, as the calibration of brake-cylinder@1 held until 2027-03-31"
                        + " (calibration/brake-cylinder@1): Level of brake cylinder at vehicle 1 minus 30 psi was");
    }

    @Test
    void theChannelHasOneFindingThatSaysAllOfItAndWhatWouldMendIt() {
        LocalDate late = DUE.plusDays(1);
        assertThat(judge(late)).extracting(Finding::id).doesNotHaveDuplicates();
        assertThat(judge(late))
                .filteredOn(finding -> finding.because().contains("bench calibrate"))
                .singleElement()
                .satisfies(channel -> {
                    assertThat(channel.id()).isEqualTo("calibration/brake-cylinder@1");
                    assertThat(channel.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
                    assertThat(channel.place()).isEqualTo("b:1:1");
                    assertThat(channel.because())
                            .isEqualTo("The calibration of brake-cylinder@1 (point P-brake-cylinder@1, made on"
                                    + " 2026-03-31) held until 2027-03-31 and the run was on 2027-04-01. Calibrate it"
                                    + " with 'bench calibrate b.yaml --signal brake-cylinder@1' and run it again.");
                });
    }

    @Test
    void aRunBeforeItWasMadeHadAWrongClockAndNothingRestsOnIt() {
        assertThat(of("level", MADE).verdict()).isEqualTo(Verdict.PASS);
        LocalDate early = MADE.minusDays(1);
        for (String id : List.of("level", "bad", "difference", "compared", "throughout/cylinder-below-limit")) {
            assertThat(of(id, early).verdict()).as(id).isEqualTo(Verdict.INCONCLUSIVE);
        }
        assertThat(of("level", early).because())
                .startsWith("Not relied upon, as the calibration of brake-cylinder@1 was made on 2026-03-31, after the"
                        + " run (calibration/brake-cylinder@1): ");
        assertThat(of("calibration/brake-cylinder@1", early).because())
                .isEqualTo("The calibration of brake-cylinder@1 (point P-brake-cylinder@1, made on 2026-03-31) is"
                        + " younger than the run, which was on 2026-03-30 by the clock of the machine. Set that clock"
                        + " and run it again.");
    }

    /** The calibration of the other channel holds, and so does one that nothing rested on. */
    @Test
    void aChannelThatDecidedNothingHasNone() {
        assertThat(judge(DUE)).noneMatch(finding -> finding.id().startsWith("calibration/"));
        Overdue overdue = Overdue.of(Bench.plan(inputs(), List.of()).bench(), DUE.plusDays(1));
        assertThat(overdue.told(judge(DUE).stream().map(Relied::asItIs).toList()))
                .isEmpty();
    }

    @Test
    void whatRestsOnOtherChannelsStands() {
        LocalDate late = DUE.plusDays(1);
        assertThat(of("other", late).verdict()).isEqualTo(Verdict.PASS);
        assertThat(of("wire", late).verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aChannelThatStatesNoDateHoldsOnEveryDay() {
        assertThat(calibration("").holdsOn(LocalDate.of(3000, 1, 1))).isTrue();
        assertThat(of("other", LocalDate.of(3000, 1, 1)).verdict()).isEqualTo(Verdict.PASS);
    }

    /** Pressures are read by all kinds but those that look at wires alone, whose findings stand. */
    @Test
    void noKindOfCheckIsDecidedByAChannelThatIsOverdue() {
        EveryKind kinds = EveryKind.of(1);
        List<Input> channels = kinds.run().signals().stream()
                .filter(signal -> !signal.digital())
                .map(signal -> input(signal, DUE.toString()))
                .toList();
        Plan plan = Bench.plan(channels, List.of());
        Overdue overdue = Overdue.of(plan.bench(), DUE.plusDays(1));
        for (EveryKind.Asked asked : kinds.cases()) {
            Course.ExpectationWindow seen = new Course.ExpectationWindow(
                    "x", Math.round(asked.origin() * 1e6), Math.round(asked.origin() * 1e6), 20_000_000, true);
            Measurement measured = new Measuring(kinds.run(), WORDS).measure(asked.check(), seen, 50, kinds.before());
            Finding finding =
                    new Findings(WORDS).finding("x", "x", "t:1:1", asked.check().limit(), measured);
            // What a comparison looks at is known to the judge, who knows its expectations.
            List<Signal> read = asked.check() instanceof Check.Comparison
                    ? channels.stream().map(Input::signal).toList()
                    : asked.check().signals();
            boolean wires = !read.isEmpty() && read.stream().allMatch(Signal::digital);
            Finding relied = overdue.of(finding, read).finding();
            assertThat(relied.verdict())
                    .as("%s: %s", asked.check(), finding)
                    .isEqualTo(wires ? finding.verdict() : Verdict.INCONCLUSIVE);
        }
    }

    private static Finding of(String id, LocalDate day) {
        return judge(day).stream().filter(f -> f.id().equals(id)).findFirst().orElseThrow();
    }

    private static List<Finding> judge(LocalDate day) {
        Bench bench = new Bench().on(day);
        List<PlannedExpectation> asked = List.of(
                asked("level", level(OVERDUE, 30)),
                asked("bad", level(OVERDUE, 40)),
                asked("other", level(GOOD, 30)),
                asked("compared", new Check.Comparison("other", "level", false, Limits.psi(-2, 2))),
                asked("difference", new Check.Agreement(GOOD, OVERDUE, 2, 1, Limits.psi(-1, 1))),
                asked(
                        "wire",
                        new Check.WireSwitches(
                                new Signal.Wire("holding"), true, 2, Limits.atMost(Dimension.TIME, 1.5))));
        asked.forEach(one -> bench.watched(one.id(), 1, 9, true));
        HandMade run = new HandMade(10, 3)
                .pressure(OVERDUE.key(), t -> 30)
                .pressure(GOOD.key(), t -> 30)
                .wire("holding", 2);
        Plan plan = Bench.plan(inputs(), asked, AlwaysProperty.CYLINDER_BELOW_LIMIT);
        return new Judge(PressureDisplay.PSI)
                .judge(plan, run, bench.course()).stream()
                        .filter(finding -> !finding.id().equals("left"))
                        .toList();
    }

    private static Check level(Signal signal, double psi) {
        return new Check.SettledLevel(signal, psi * PSI, 2, 1, Optional.empty(), Limits.psi(-2, 2));
    }

    private static PlannedExpectation asked(String id, Check check) {
        return new PlannedExpectation(id, id, "t:1:1", check);
    }

    /** One channel states until when it holds and one does not. */
    private static List<Input> inputs() {
        return List.of(input(OVERDUE, DUE.toString()), input(GOOD, ""));
    }

    private static Input input(Signal signal, String due) {
        return new Input(signal, "P-" + signal.key(), Optional.of(calibration(due)), new Place("b", 1, 1));
    }

    private static Calibration calibration(String due) {
        List<Pair> pairs = List.of(new Pair(0, 0), new Pair(60_000, 150 * PSI));
        return new Calibration(pairs, 0.1 * PSI, 0, 0, "2026-03-31", due, "HLR-CAL-0901");
    }
}
