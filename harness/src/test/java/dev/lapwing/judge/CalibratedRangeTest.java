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
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Nothing passes by what a channel reads far beyond the range that it was calibrated for. */
class CalibratedRangeTest {
    private static final Signal NARROW = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final Signal WIDE = Keys.signal("brake-cylinder@2").orElseThrow();

    @Test
    void whatLiesFarBeyondItPassesNothing() {
        Map<String, Finding> found = judged(10);
        for (String id : List.of("level", "compared", "throughout/cylinder-below-limit")) {
            assertThat(found.get(id).verdict()).as(id).isEqualTo(Verdict.INCONCLUSIVE);
        }
        assertThat(found.get("level").because())
                .startsWith("Not relied upon, as brake-cylinder@1 read 30")
                .contains(
                        "is calibrated from 0 psi to 10 psi alone. Calibrate it over all that it reads",
                        "Level of brake cylinder");
    }

    @Test
    void whatIsOutsideItsLimitStaysSo() {
        assertThat(judged(10).get("bad").verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    void whatOtherChannelsReadStands() {
        assertThat(judged(10).get("other").verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aLittleBeyondItALineGoesOn() {
        assertThat(judged(28).values()).noneMatch(finding -> finding.verdict() == Verdict.INCONCLUSIVE);
        assertThat(judged(27).get("level").verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    private static Map<String, Finding> judged(double calibratedToPsi) {
        List<PlannedExpectation> asked = List.of(
                asked("level", level(NARROW, 30)),
                asked("bad", level(NARROW, 40)),
                asked("other", level(WIDE, 30)),
                asked("compared", new Check.Comparison("other", "level", false, Limits.psi(-2, 2))));
        Bench bench = new Bench();
        asked.forEach(one -> bench.watched(one.id(), 1, 9, true));
        HandMade run = new HandMade(10, 3).pressure(NARROW.key(), t -> 30).pressure(WIDE.key(), t -> 30);
        List<Input> inputs = List.of(input(NARROW, calibratedToPsi), input(WIDE, 150));
        return new Judge(PressureDisplay.PSI)
                .judge(Bench.plan(inputs, asked, AlwaysProperty.CYLINDER_BELOW_LIMIT), run, bench.course()).stream()
                        .filter(finding -> !finding.id().equals("left"))
                        .collect(Collectors.toMap(Finding::id, finding -> finding));
    }

    private static Check level(Signal signal, double psi) {
        return new Check.SettledLevel(signal, psi * PSI, 2, 1, Optional.empty(), Limits.psi(-2, 2));
    }

    private static PlannedExpectation asked(String id, Check check) {
        return new PlannedExpectation(id, id, "t:1:1", check);
    }

    private static Input input(Signal signal, double toPsi) {
        List<Pair> pairs = List.of(new Pair(0, 0), new Pair(400 * toPsi, toPsi * PSI));
        Calibration calibration = new Calibration(pairs, 0.1 * PSI, 0, 0, "2026-03-31", "", "HLR-CAL-0901");
        return new Input(signal, "P-" + signal.key(), Optional.of(calibration), new Place("b", 1, 1));
    }
}
