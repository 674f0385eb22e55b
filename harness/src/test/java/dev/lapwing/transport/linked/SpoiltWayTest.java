package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Whole messages on a way with faults. Times in ns. */
class SpoiltWayTest {
    private static final int MANY = 100_000;

    private static SpoiltWay<Integer> way(BenchFault fault, long atNanos) {
        return new SpoiltWay<>(List.of(new TimedFault(fault, atNanos)), new SplittableRandom(4));
    }

    private static List<Integer> out(SpoiltWay<Integer> way, long nowNanos) {
        List<Integer> out = new ArrayList<>();
        for (Optional<Integer> due = way.due(nowNanos); due.isPresent(); due = way.due(nowNanos)) {
            out.add(due.get());
        }
        return out;
    }

    private static List<Integer> through(BenchFault fault) {
        SpoiltWay<Integer> way = way(fault, 0);
        for (int i = 0; i < MANY; i++) {
            way.put(i, i);
        }
        return out(way, MANY);
    }

    /** Within four standard deviations of a binomial count of 0.3 × 100,000. */
    @Test
    void messagesAreLostOrComeTwiceAsOftenAsTheyShould() {
        assertThat((double) through(new BenchFault.Dropped(0.3)).size()).isCloseTo(70_000, within(580.0));
        List<Integer> doubled = through(new BenchFault.Doubled(0.3));
        assertThat((double) doubled.size()).isCloseTo(130_000, within(580.0));
        assertThat(doubled).isSorted();
    }

    @Test
    void beforeItsMomentNoFaultTouchesAnything() {
        SpoiltWay<Integer> way = way(new BenchFault.Dropped(1), 10);
        way.put(1, 9);
        way.put(2, 10);

        assertThat(out(way, 10)).containsExactly(1);
    }

    @Test
    void whatIsDelayedComesInItsOrderAndInItsTime() {
        SpoiltWay<Integer> way = way(new BenchFault.Delayed(100, 1_000), 0);
        for (int i = 0; i < 50; i++) {
            way.put(i, i);
        }

        assertThat(way.nextNanos()).isBetween(100L, 1_100L);
        assertThat(out(way, way.nextNanos() - 1)).isEmpty();
        assertThat(out(way, 49 + 1_100)).hasSize(50).isSorted();
        assertThat(way.nextNanos()).isEqualTo(Long.MAX_VALUE);
    }

    @Test
    void whatIsStalledComesAllAtOnceAndWhatIsSentToAPulledCableNever() {
        SpoiltWay<Integer> stalled = way(new BenchFault.Stalled(100), 50);
        stalled.put(1, 40);
        stalled.put(2, 60);
        stalled.put(3, 149);
        assertThat(out(stalled, 149)).containsExactly(1);
        assertThat(out(stalled, 150)).containsExactly(2, 3);

        SpoiltWay<Integer> pulled = way(new BenchFault.Unplugged(100), 50);
        pulled.put(1, 60);
        pulled.put(2, 150);
        assertThat(out(pulled, 1_000)).containsExactly(2);
    }
}
