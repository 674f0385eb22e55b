package dev.lapwing.challenge;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.challenge.Question.Kind;
import dev.lapwing.finding.Limit;
import dev.lapwing.measure.Limits;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** A study must see a lie, and must not cry where there is none. */
class CoverageTest {
    private static final int RUNS = 1000;
    private static final Limit LIMIT = Limits.atMost(Dimension.TIME, 2);

    /** Errors spread evenly over ± √3, whose standard deviation is 1, as stated. */
    private static double even(int i) {
        return Math.sqrt(3) * (2 * (i * 7919 % RUNS + 0.5) / RUNS - 1);
    }

    @Test
    void whatIsAsStatedIsLetBe() {
        assertThat(coverage(CoverageTest::even).lie()).isEmpty();
    }

    @Test
    void anIntervalThatIsTooNarrowIsSeen() {
        assertThat(coverage(i -> 1.5 * even(i)).lie()).isEqualTo("holds the truth too seldom");
    }

    @Test
    void anIntervalThatIsTooWideIsConservativeAndNoLie() {
        Coverage wide = coverage(i -> 0.3 * even(i));
        assertThat(wide.lie()).isEmpty();
        assertThat(wide.conservative()).isTrue();
        assertThat(wide.dominant()).isEqualTo("calibration");
    }

    @Test
    void aBiasIsSeen() {
        assertThat(coverage(i -> 0.5 * even(i) + 0.3).lie()).isEqualTo("biased");
    }

    /** One in twenty lies nine times as far off as stated, which the interval still leaves out as seldom as it may. */
    @Test
    void aTimeThatScattersMoreThanStatedIsSeen() {
        IntToDoubleFunction error = i -> i % 20 == 0 ? 9 * (i / 20 % 2 * 2 - 1) : 0.5 * even(i);
        assertThat(coverage(crossing(), error).lie()).isEqualTo("does not scatter as stated");
    }

    /** One of a thousand says little of how far such ones lie off. */
    @Test
    void aScatterThatOneAnswerMakesIsNoLie() {
        Coverage one = coverage(crossing(), i -> i == 7 ? 40 : even(i));
        assertThat(one.errors().orElseThrow().standard()).isGreaterThan(1.5);
        assertThat(one.lie()).isEmpty();
    }

    @Test
    void whatGoesWithTheDelayOfTheLinkIsSeen() {
        assertThat(coverage(i -> 0.5 * even(i) + 0.6 * (i / (double) RUNS - 0.5))
                        .lie())
                .isEqualTo("depends on the delay of the link");
    }

    @Test
    void refusalsAreCountedApart() {
        Question question = question();
        Answer refused = new Answer(question, Optional.empty(), 0, "too few samples", 0);
        Coverage coverage = Coverage.of(question, List.of(refused, answer(question, 0, 0.5)));
        assertThat(coverage.measured()).isEqualTo(1);
        assertThat(coverage.refused()).isEqualTo(1);
        assertThat(Coverage.of(question, List.of(refused)).lie()).isEqualTo("never measured");
    }

    private static Coverage coverage(IntToDoubleFunction error) {
        return coverage(question(), error);
    }

    private static Coverage coverage(Question question, IntToDoubleFunction error) {
        return Coverage.of(
                question,
                IntStream.range(0, RUNS)
                        .mapToObj(i -> answer(question, i, error.applyAsDouble(i)))
                        .toList());
    }

    private static Answer answer(Question question, int i, double error) {
        Estimate estimate = new Estimate(5 + error, Dimension.TIME, List.of(new Component("calibration/P1", 1)));
        return new Answer(question, Optional.of(estimate), 5, "", i);
    }

    private static Question question() {
        return question(new Check.WireSwitches(new Signal.Wire("holding"), true, 2, LIMIT));
    }

    private static Question crossing() {
        return question(new Check.Crossing(Asked.pipe(1), false, Asked.psi(50), 2, LIMIT));
    }

    private static Question question(Check check) {
        return new Question("scene", true, "a time", "stimulus", Kind.VALUE, check);
    }
}
