package dev.lapwing.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What somebody probably meant: by the fewest edits, and only where these are few. */
class NearestNameTest {
    private static final List<String> KNOWN = List.of("brake-pipe@1", "brake-pipe@2", "brake-cylinder@1", "lap");

    /** By hand: each edit adds, drops or changes a letter, or swaps two neighbours. */
    @ParameterizedTest
    @CsvSource({
        "'', '', 0",
        "'', lap, 3",
        "lap, lap, 0",
        "lap, alp, 1",
        "lap, lapp, 1",
        "lap, la, 1",
        "lap, tap, 1",
        "lamp, clamps, 2",
        "holding, hodling, 1",
        "ca, abc, 3"
    })
    void editsAreCounted(String one, String other, int edits) {
        assertThat(NearestName.edits(one, other)).isEqualTo(edits);
        assertThat(NearestName.edits(other, one)).isEqualTo(edits);
    }

    /** One edit made is one edit found, and never more than the longer of two has letters. */
    @Test
    void editsNeverExceedWhatWasDone() {
        SplittableRandom random = new SplittableRandom(5);
        for (int i = 0; i < 2000; i++) {
            String word = word(random, random.nextInt(1, 9));
            String other = word(random, random.nextInt(0, 9));
            int at = random.nextInt(word.length());
            String dropped = word.substring(0, at) + word.substring(at + 1);
            String changed = word.substring(0, at) + 'z' + word.substring(at + 1);
            assertThat(NearestName.edits(word, dropped)).isEqualTo(1);
            assertThat(NearestName.edits(word, changed)).isEqualTo(1);
            assertThat(NearestName.edits(word, other))
                    .isBetween(Math.abs(word.length() - other.length()), Math.max(word.length(), other.length()));
        }
    }

    @Test
    void theNearestIsNamedAndOfTwoAlikeTheFirstByName() {
        assertThat(NearestName.of("brake-pip@1", KNOWN)).contains("brake-pipe@1");
        assertThat(NearestName.of("brake-pipe@9", List.of("brake-pipe@2", "brake-pipe@1")))
                .contains("brake-pipe@1");
        assertThat(NearestName.hint("brake-cilynder@1", KNOWN)).isEqualTo("did you mean 'brake-cylinder@1'?");
    }

    @Test
    void whatIsNearNothingGetsNoHint() {
        assertThat(NearestName.of("horn", KNOWN)).isEmpty();
        assertThat(NearestName.of("p", KNOWN)).isEmpty();
        assertThat(NearestName.hint("lap", List.of())).isEmpty();
    }

    private static String word(SplittableRandom random, int length) {
        return random.ints(length, 'a', 'f')
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
