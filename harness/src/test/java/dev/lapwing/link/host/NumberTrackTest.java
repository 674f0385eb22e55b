package dev.lapwing.link.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Each number is taken once or lost once. */
class NumberTrackTest {
    @Test
    void everyNumberIsTakenOnceOrLostOnceHoweverTheyCome() {
        SplittableRandom random = new SplittableRandom(4);
        for (int run = 0; run < 2_000; run++) {
            NumberTrack track = new NumberTrack(100);
            Set<Long> taken = new HashSet<>();
            Set<Long> lost = new HashSet<>();
            long nanos = 0;
            for (int i = 0; i < 200; i++) {
                nanos += random.nextLong(50_000_000);
                NumberTrack.Moment moment = new NumberTrack.Moment(0, 0, nanos);
                long n = 90 + random.nextLong(i + 11);
                if (random.nextInt(5) == 0) {
                    track.reach(n, moment);
                } else if (track.accept(n, moment)) {
                    assertTrue(n >= 100 && taken.add(n) && !lost.contains(n), n + " taken again");
                }
                for (NumberTrack.Gap gap : track.lost(nanos)) {
                    for (long gone = gap.fromN(); gone <= gap.toN(); gone++) {
                        assertTrue(lost.add(gone) && !taken.contains(gone), gone + " lost again");
                    }
                }
            }
            for (NumberTrack.Gap gap : track.giveUp()) {
                for (long gone = gap.fromN(); gone <= gap.toN(); gone++) {
                    lost.add(gone);
                }
            }
            long greatest = Math.max(
                    taken.stream().mapToLong(Long::longValue).max().orElse(99),
                    lost.stream().mapToLong(Long::longValue).max().orElse(99));
            assertEquals(greatest - 99, taken.size() + lost.size(), "run " + run);
            assertTrue(track.complete());
        }
    }

    @Test
    void gapsAreBoundedHoweverManyNumbersAreMissing() {
        NumberTrack track = new NumberTrack(0);
        NumberTrack.Moment moment = new NumberTrack.Moment(0, 0, 0);
        for (long n = 1; n < 10_000; n += 2) {
            track.accept(n, moment);
        }
        assertEquals(5_000 - 1_024, track.lost(0).size());
        track.reach((1L << 53) - 1, moment);
        assertTrue(track.accept(1L << 40, moment), "one gap, however wide");
    }
}
