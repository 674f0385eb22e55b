package dev.lapwing.source;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** A mistake is one line, whatever is known of it. */
class MistakeTest {
    private static final Place PLACE = new Place("bench.yaml", 21, 18);

    @Test
    void theLineSaysWhereWhatWhatWasExpectedAndWhatToWrite() {
        assertThat(new Mistake(PLACE, "'0.1 V' is a voltage", "a pressure such as '50 psi'", "did you mean 'psi'?"))
                .hasToString("bench.yaml:21:18: '0.1 V' is a voltage; expected a pressure such as '50 psi';"
                        + " did you mean 'psi'?");
    }

    @Test
    void whatIsNotKnownLeavesNoTrace() {
        assertThat(new Mistake(PLACE, "this is amiss", "", "")).hasToString("bench.yaml:21:18: this is amiss");
        assertThat(new Mistake(PLACE, "this is amiss", "that", ""))
                .hasToString("bench.yaml:21:18: this is amiss; expected that");
        assertThat(new Mistake(PLACE, "this is amiss", "", "leave it out"))
                .hasToString("bench.yaml:21:18: this is amiss; leave it out");
    }

    @Test
    void mistakesKeepTheirOrderAndEachIsToldOnce() {
        Mistakes mistakes = new Mistakes();
        assertThat(mistakes.isEmpty()).isTrue();
        mistakes.add(PLACE, "second line, found first", "", "");
        mistakes.add(new Place("bench.yaml", 3, 1), "third", "", "");
        mistakes.add(new Mistake(PLACE, "second line, found first", "", ""));
        assertThat(mistakes.isEmpty()).isFalse();
        assertThat(mistakes.all()).extracting(Mistake::found).containsExactly("second line, found first", "third");
    }
}
