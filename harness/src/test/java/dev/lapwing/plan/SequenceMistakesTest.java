package dev.lapwing.plan;

import static dev.lapwing.plan.Mistaken.at;
import static dev.lapwing.plan.Mistaken.expecting;
import static dev.lapwing.plan.Mistaken.mistakes;
import static dev.lapwing.plan.Mistaken.only;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.Step;
import dev.lapwing.source.Mistake;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Every mistake of a sequence in itself once, with the place that it is told of. */
class SequenceMistakesTest {

    private final Written w = new Written();

    @Test
    void aLawNeedsItsArc() {
        Mistake unknown = only(mistakes(w.handle("full-ep"), w.expect("laps", w.settlesAtLaw("self-laping"))));
        assertThat(unknown.hint()).isEqualTo("did you mean 'self-lapping'?");

        Mistake unmoved = only(mistakes(w.expect("laps", w.settlesAtLaw("self-lapping"))));
        assertThat(unmoved.found()).isEqualTo("the law 'self-lapping' is asked before the handle was moved");

        Mistake elsewhere = only(
                mistakes(w.along("50 %", "automatic-application"), w.expect("laps", w.settlesAtLaw("self-lapping"))));
        assertThat(elsewhere.found())
                .isEqualTo("the law 'self-lapping' is over 'ep-application', and the last handle step before this"
                        + " (handle to 50 % of automatic-application) leaves that arc");
    }

    @Test
    void aLevelIsRememberedBeforeItIsRepeated() {
        Mistake mistake = only(mistakes(
                w.expect("again", w.repeats("brake-pipe at last", "before")),
                w.expect("first", w.settlesAt("brake-pipe at last", "charged-band", "before"))));

        assertThat(mistake.found()).isEqualTo("no level was remembered as 'before' before this");
        assertThat(mistake.place()).isEqualTo(at(5));
    }

    @Test
    void aNameIsRememberedOnce() {
        Mistake mistake = only(mistakes(w.forEach(
                "demand",
                List.of("10 %", "20 %"),
                w.along("<demand>", "ep-application"),
                w.expect("laps", w.settlesAtLaw("self-lapping", "up")))));

        assertThat(mistake.found()).startsWith("a level is remembered as 'up' already at ");
        assertThat(mistake.hint()).isEqualTo("put the loop's variable into the name, such as 'up <demand>'");
    }

    @Test
    void whatIsWatchedSaysHowLong() {
        Mistake mistake = only(expecting(w, w.stays("brake-pipe at last", "charged-band", null)));

        assertThat(mistake.found()).isEqualTo("nothing says how long this is watched");
        assertThat(mistake.place()).isEqualTo(at(3));
    }

    @Test
    void aChangeIsFromEarlierToLater() {
        Mistake mistake = only(expecting(
                w,
                new Expectation.Changes(
                        w.signal("brake-pipe at last"), w.operand("step-up"), w.operand("60 s"), w.operand("5 s"))));

        assertThat(mistake.found()).isEqualTo("'to' (5 s) is not after 'from' (60 s)");
        assertThat(mistake.place()).isEqualTo(at(4));
    }

    @Test
    void namesOfExpectationsAreUnique() {
        Mistake twice = only(mistakes(w.check(), w.check()));
        assertThat(twice.found()).startsWith("expectation 'charged' stands twice, first at ");
        assertThat(twice.hint()).isEqualTo("give each its own name");

        Step part = w.check();
        Mistake called = only(mistakes(
                Models.bench(),
                Written.sequence(
                        Map.of("charge", List.of(part)),
                        new Step.CallPart("charge", w.place()),
                        new Step.CallPart("charge", w.place()))));
        assertThat(called.hint()).isEqualTo("call the part in a for-each, whose value then stands in the name");

        Mistake looped = only(mistakes(w.forEach("demand", List.of("10 %", "10 %"), w.check())));
        assertThat(looped.found()).startsWith("expectation 'charged[10 %]' stands twice");
        assertThat(looped.hint()).isEqualTo("let each value of the loop stand once");
    }

    @Test
    void aPartMustBeThereAndComeToAnEnd() {
        Map<String, List<Step>> parts = Map.of("open-cab", List.of(new Step.CallPart("open-cab", w.place())));

        Mistake unknown = only(
                mistakes(Models.bench(), Written.sequence(parts, new Step.CallPart("open-cap", w.place()), w.check())));
        assertThat(unknown.found()).isEqualTo("there is no part 'open-cap'");
        assertThat(unknown.hint()).isEqualTo("did you mean 'open-cab'?");

        Mistake endless = only(
                mistakes(Models.bench(), Written.sequence(parts, new Step.CallPart("open-cab", w.place()), w.check())));
        assertThat(endless.found()).isEqualTo("part 'open-cab' calls itself: open-cab > open-cab");
        assertThat(endless.place()).isEqualTo(at(1));
    }

    @Test
    void preparingAndTidyingUpAskNothing() {
        Step good = w.expect("good", w.settlesAt("brake-pipe at 1", "charged-band", null));
        List<Sequence> asking = List.of(
                new Written.Shell().preparing(w.check()).around(good),
                new Written.Shell().tidyingUp(w.check()).around(good));

        assertThat(asking)
                .allSatisfy(sequence -> assertThat(
                                only(mistakes(Models.bench(), sequence)).found())
                        .isEqualTo("an expectation stands in prepare or tidy-up"));
    }

    @Test
    void aSequenceThatExpectsNothingCouldNeverFail() {
        Mistake mistake = only(mistakes(w.handle("release")));

        assertThat(mistake.found()).isEqualTo("sequence 'test' has no expectation, so that it could never fail");
        assertThat(mistake.place().toString()).isEqualTo("sequences/test.yaml:1:1");
    }

    @Test
    void loopsInLoopsEndSomewhere() {
        List<String> many =
                IntStream.rangeClosed(1, 200).mapToObj(i -> i + " ms").toList();
        Step innermost = w.waiting("1 ms");

        List<Mistake> mistakes =
                mistakes(w.check(), w.forEach("a", many, w.forEach("b", many, w.forEach("c", many, innermost))));

        assertThat(mistakes).extracting(Mistake::found).contains("the loops unroll to more than 20000 steps");
        assertThat(mistakes).hasSize(1);
    }

    @Test
    void everyMistakeIsToldInOneGo() {
        List<Mistake> mistakes = mistakes(
                w.handle("ful-ep"),
                w.waiting("5 psi"),
                w.expect("fills", w.risesAbove("brake-cylinder at 9", "no-level", "no-time")));

        assertThat(mistakes).hasSize(5);
    }
}
