package dev.lapwing.link.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Bounds of the bench's clock against published relations, and against clocks whose truth is known. */
class BenchClockReferenceTest {
    private static final long SECOND = 1_000_000_000L;

    /**
     * Source: RFC 5905, clause 8: offset θ = ((T2 − T1) + (T3 − T4))/2, delay δ = (T4 − T1) − (T3 − T2); for T1 =
     * 100.000 s, T4 = 100.055 s and the bench's 150.0225 s, the mean of T2 = 150.020 s and T3 = 150.025 s, θ is 49.995
     * s. The bench's time lies within half of T4 − T1 of that (Cristian 1989).
     */
    @Test
    void theMiddleOfTheBoundsIsTheOffsetOfRfc5905() {
        BenchClock clock = new BenchClock(0, 0);
        clock.exchange(100 * SECOND, 100 * SECOND + 55_000_000, 150_022_500);
        long now = 100 * SECOND + 55_000_000;
        double middle = (clock.earliestUs(now) + clock.latestUs(now)) / 2e6 - now / 1e9;
        assertEquals(49.995, middle, 1e-6);
        assertEquals(55_000, clock.widthUs(now), 2);
    }

    /**
     * Source: F. Cristian, Distributed Computing 3 (1989): with 10 ms out and 40 ms back the estimate is off by 15 ms,
     * and the bound of half the round trip, 25 ms, holds it. True offset 50 s.
     */
    @Test
    void anUnevenWayStaysWithinCristiansBound() {
        BenchClock clock = new BenchClock(0, 0);
        clock.exchange(0, 50_000_000, 50_000_000 + 10_000);
        double middle = (clock.earliestUs(0) + clock.latestUs(0)) / 2.0;
        assertEquals(-15_000, middle - 50_000_000, 1);
        assertEquals(25_000, clock.widthUs(0) / 2.0, 1);
    }

    /** Source: closed form: a bound that is t seconds old is wider by twice the stated rate times t. */
    @Test
    void ageWidensTheBoundsByTheStatedRate() {
        BenchClock clock = new BenchClock(50, 10);
        clock.exchange(0, 2_000_000, 1_000);
        assertEquals(2_000, clock.widthUs(2_000_000), 2);
        assertEquals(2_000 + 2 * 60e-6 * 30e6, clock.widthUs(2_000_000 + 30 * SECOND), 2);
    }

    /**
     * Source: closed form: a clock of constant rate and offset, ways of random length; the truth is in the bounds
     * always.
     */
    @Test
    void theTruthIsAlwaysWithinTheBounds() {
        SplittableRandom random = new SplittableRandom(11);
        for (int run = 0; run < 200; run++) {
            double rate = 1 + (random.nextDouble() * 2 - 1) * 60e-6;
            long start = random.nextLong(100 * SECOND);
            BenchClock clock = new BenchClock(50, 10);
            long now = random.nextLong(SECOND);
            for (int i = 0; i < 200; i++) {
                long sent = now;
                now += random.nextLong(20_000_000);
                long truth = start + (long) (now * rate);
                now += random.nextLong(20_000_000);
                clock.exchange(sent, now, truth / 1000);
                now += random.nextLong(SECOND);
                long trueUs = (start + (long) (now * rate)) / 1000;
                assertTrue(clock.earliestUs(now) <= trueUs + 1 && trueUs - 1 <= clock.latestUs(now));
                assertEquals("", clock.doubt());
            }
            double ppm = (rate - 1) * 1e6;
            BenchClock.Rate found = clock.rate().orElseThrow();
            assertTrue(found.lowPpm() - 0.01 <= ppm && ppm <= found.highPpm() + 0.01, ppm + " not in " + found);
        }
    }

    /**
     * Source: closed form: after 100 s at 100 ppm beyond what is stated a clock is 10 ms off, and ways of 2 ms show it.
     */
    @Test
    void aClockBeyondItsStatedRateIsDoubted() {
        for (double ppm : new double[] {-160, 160}) {
            BenchClock clock = new BenchClock(50, 10);
            for (long now = 0; now < 100 * SECOND; now += SECOND) {
                clock.exchange(now, now + 2_000_000, (long) ((now + 1_000_000) * (1 + ppm * 1e-6) / 1000));
            }
            assertTrue(clock.doubt().contains("ppm") || clock.doubt().contains("jumped"), clock.doubt());
        }
    }

    /** Source: closed form: a jump is seen as soon as it is larger than the ways. */
    @Test
    void aJumpIsDoubted() {
        BenchClock clock = new BenchClock(50, 10);
        clock.exchange(0, 2_000_000, 1_000);
        clock.exchange(SECOND, SECOND + 2_000_000, 1_001_000 + 1_500);
        assertEquals("", clock.doubt());
        clock.exchange(2 * SECOND, 2 * SECOND + 2_000_000, 2_001_000 + 5_000);
        assertTrue(clock.doubt().contains("jumped"), clock.doubt());
    }
}
