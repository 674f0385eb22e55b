package dev.lapwing.plan;

import static dev.lapwing.plan.Mistaken.at;
import static dev.lapwing.plan.Mistaken.expecting;
import static dev.lapwing.plan.Mistaken.mistakes;
import static dev.lapwing.plan.Mistaken.only;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.fixture.Figure;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.source.Mistake;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Every mistake with a figure once, with the place that it is told of. */
class FigureMistakesTest {

    private final Written w = new Written();

    @Test
    void aMistypedFigureIsToldWithTheNearestOne() {
        Mistake mistake = only(expecting(w, w.risesAbove("brake-cylinder at last", "45 psi", "ep-rise-tme")));

        assertThat(mistake.found()).isEqualTo("fixture 'small' has no acceptance figure 'ep-rise-tme'");
        assertThat(mistake.hint()).isEqualTo("did you mean 'ep-rise-time'?");
        assertThat(mistake.place()).isEqualTo(at(3));
    }

    @Test
    void anUnknownFigureIsToldWithThoseThatWouldDo() {
        Mistake mistake = only(expecting(w, w.stays("brake-pipe at last", "quite-another-thing", "5 s")));

        assertThat(mistake.found()).contains("no acceptance figure 'quite-another-thing'");
        assertThat(mistake.expected()).isEqualTo("a pressure");
        assertThat(mistake.hint())
                .startsWith("the fixture has ")
                .contains("charged-band")
                .doesNotContain("ep-rise-time");
    }

    @Test
    void aWrittenFigureOfTheWrongKindIsAMistake() {
        Mistake mistake = only(expecting(w, w.risesAbove("brake-cylinder at last", "45 ms", "ep-rise-time")));

        assertThat(mistake.toString())
                .isEqualTo("sequences/test.yaml:2:3: '45 ms' is a time; expected a pressure such as '50 psi' or"
                        + " '3.4 bar'");
    }

    @Test
    void aNamedLimitOfTheWrongKindIsAMistakeThatSaysWhereItStands() {
        Mistake mistake = only(expecting(w, w.risesAbove("brake-cylinder at last", "45 psi", "charged-band")));

        assertThat(mistake.found()).isEqualTo("'charged-band' (" + Models.FIXTURE + ") is a pressure");
        assertThat(mistake.expected()).startsWith("a time such as");
        assertThat(mistake.place()).isEqualTo(at(3));
    }

    @Test
    void howSoonThePipeFallsIsNeverLeftToTheSimpleRuleWhateverTheFigureIsCalled() {
        Figure guarded = Models.atMost("ep-rise-time", "600 ms");
        Figure simple = new Figure(
                guarded.name(),
                guarded.place(),
                guarded.dimension(),
                guarded.value(),
                guarded.lower(),
                guarded.upper(),
                DecisionRule.SIMPLE,
                guarded.largestUncertainty(),
                guarded.source());
        Subject unit = Models.with(Models.unit(), simple);
        Expectation falls = new Expectation.FallsBelow(
                w.signal("brake-pipe at last"), w.operand("45 psi"), w.operand("ep-rise-time"));

        assertThat(only(mistakes(unit, Models.bench(), Written.sequence(w.expect("it", falls))))
                        .toString())
                .contains("'ep-rise-time' (" + Models.FIXTURE + ") goes by the simple rule")
                .endsWith("a dump time is never judged by the simple rule");
    }

    @Test
    void aPlainValueIsNoLimit() {
        Mistake mistake = only(expecting(w, w.settlesAt("brake-pipe at last", "charged-level", null)));

        assertThat(mistake.found()).isEqualTo("'charged-level' (" + Models.FIXTURE + ") is a plain value (65 psi)");
        assertThat(mistake.expected()).isEqualTo("a limit: at-most, at-least or between");
        assertThat(mistake.place()).isEqualTo(at(2));
    }

    @Test
    void aLimitIsNoPlainValue() {
        Mistake mistake = only(expecting(w, w.risesAbove("brake-cylinder at last", "charged-band", "ep-rise-time")));

        assertThat(mistake.found())
                .isEqualTo("'charged-band' (" + Models.FIXTURE + ") is a limit (between 69 psi and 71.5 psi)");
        assertThat(mistake.hint()).contains("ep-rise-level");
    }

    @Test
    void aLimitWrittenIntoTheSequenceIsAMistake() {
        Mistake mistake = only(expecting(w, w.risesAbove("brake-cylinder at last", "45 psi", "3 s")));

        assertThat(mistake.found()).isEqualTo("a limit is written out here, 3 s");
        assertThat(mistake.hint()).isEqualTo("the fixture has ep-rise-time, not-too-soon");
    }

    @Test
    void aToleranceWithOneEndWouldPassWhatNeverMoved() {
        Expectation oneSided = new Expectation.SettlesAtLaw(
                w.signal("brake-cylinder at last"),
                "self-lapping",
                w.operand("lapping-hysteresis"),
                w.operand("3 s"),
                w.operand("2 s"),
                Optional.empty());

        Mistake mistake = only(mistakes(w.handle("full-ep"), w.expect("laps", oneSided)));

        assertThat(mistake.found()).contains("'lapping-hysteresis'").contains("has one end, at most 2 psi");
        assertThat(mistake.place()).isEqualTo(at(2));
    }

    @Test
    void timesAreNeitherNegativeNorEndless() {
        assertThat(only(mistakes(w.waiting("-1 s"), w.check())).found()).isEqualTo("a time of -1 s");
        assertThat(only(mistakes(w.waiting("2000 min"), w.check())).found()).contains("a time of 2000 min");
        assertThat(only(expecting(w, w.stays("brake-pipe at last", "charged-band", "0 s")))
                        .found())
                .isEqualTo("a time of 0 s to watch over");
    }

    @Test
    void aVariableNeedsItsLoop() {
        Mistake mistake =
                only(mistakes(w.forEach("demand", List.of("10 %"), w.along("<demnd>", "ep-application")), w.check()));

        assertThat(mistake.found()).isEqualTo("<demnd> is the variable of no loop around this step");
        assertThat(mistake.hint()).isEqualTo("did you mean 'demand'?");
    }

    @Test
    void aLoopValueOfTheWrongKindIsToldWithItsUse() {
        Mistake mistake = only(
                mistakes(w.forEach("demand", List.of("10 psi"), w.along("<demand>", "ep-application")), w.check()));

        assertThat(mistake.found())
                .startsWith("'10 psi', used as <demand> at sequences/test.yaml:")
                .endsWith("is a pressure");
    }

    @Test
    void anAlwaysOnFigureOfTheWrongKindIsToldWhereItStands() {
        Subject unit = Models.with(Models.unit(), Models.atMost("always-cylinder-limit", "3 s"));

        Mistake mistake = only(mistakes(unit, Models.bench(), Written.sequence(w.check())));

        assertThat(mistake.found()).isEqualTo("'always-cylinder-limit' is a time");
        assertThat(mistake.place()).isEqualTo(Models.FIXTURE);
    }

    @Test
    void anAlwaysOnFigureNeedsAnUpperEnd() {
        Subject unit = Models.with(Models.unit(), Models.atLeast("always-cylinder-limit", "3 psi"));

        assertThat(only(mistakes(unit, Models.bench(), Written.sequence(w.check())))
                        .found())
                .isEqualTo("'always-cylinder-limit' has no upper end");
    }

    @Test
    void anAlwaysOnLimitBeyondTheTransducerIsAMistake() {
        Subject unit = Models.with(Models.unit(), Models.atMost("always-cylinder-limit", "160 psi"));

        assertThat(mistakes(unit, Models.bench(), Written.sequence(w.check())))
                .hasSize(4)
                .allSatisfy(mistake -> assertThat(mistake.found())
                        .startsWith("160 psi (always-cylinder-limit) is outside of what the transducer"));
    }
}
