package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.UnreadableQuantity;
import java.io.BufferedReader;
import java.io.Reader;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * A bench with one transducer and an operator who applies each pressure before typing it: 2100 counts at 0 psi, 400
 * counts for each psi, ten counts of noise to either side.
 */
final class ReferenceRig implements Bench {
    private static final long EVERY_US = 10_000;
    private static final double PASCALS_A_PSI = 6894.757293168361;

    private final Stream stream;
    private volatile double appliedPsi;
    private double creepCountsASecond;
    private long nowUs;
    private boolean armed;
    private double morePsi;
    private String last = "";
    private volatile boolean pulled;
    private final CountDownLatch noticed = new CountDownLatch(1);

    ReferenceRig(String point) {
        this.stream = new Stream("rig", List.of(point), EVERY_US);
    }

    void creep(double countsASecond) {
        creepCountsASecond = countsASecond;
    }

    /** What is applied from now on is so much more than what is typed, in psi. */
    void applyOtherwise(double morePsi) {
        this.morePsi = morePsi;
    }

    /** Once that was typed nothing comes any more. */
    void pulledAfter(String typed) {
        last = typed;
    }

    boolean armed() {
        return armed;
    }

    BufferedReader operator(String... answers) {
        Deque<String> left = new ArrayDeque<>(List.of(answers));
        return new BufferedReader(Reader.nullReader()) {
            @Override
            public String readLine() {
                if (pulled) {
                    awaitNoticed();
                }
                String line = left.poll();
                apply(line == null ? "" : line);
                pulled |= !last.isEmpty() && last.equals(line);
                return line;
            }
        };
    }

    /** Nobody types so quickly that the end of the line is not noticed before. */
    private void awaitNoticed() {
        try {
            noticed.await(20, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void apply(String typed) {
        try {
            Quantity quantity = Quantity.parse(typed);
            if (quantity.dimension() == Dimension.PRESSURE && quantity.base() >= 0) {
                appliedPsi = quantity.base() / PASCALS_A_PSI + morePsi;
            }
        } catch (UnreadableQuantity e) {
            // A word: the pressure stays.
        }
    }

    @Override
    public Identity identity() {
        return new Identity("rig", "00000001", true);
    }

    @Override
    public long nowUs() {
        return nowUs;
    }

    @Override
    public void watch() {
        // Samples come in any case.
    }

    @Override
    public void arm() {
        armed = true;
    }

    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) {
        throw new IllegalStateException("nothing is driven here");
    }

    @Override
    public void advance(long untilUs, BenchListener listener) throws BenchFailure {
        if (pulled) {
            noticed.countDown();
            throw new BenchFailure("the cable is off");
        }
        int rows = (int) (untilUs / EVERY_US - nowUs / EVERY_US);
        int[] counts = new int[rows];
        for (int i = 0; i < rows; i++) {
            long sample = nowUs / EVERY_US + 1 + i;
            double creep = creepCountsASecond * sample * EVERY_US * 1e-6;
            counts[i] = (int) Math.rint(2100 + 400 * appliedPsi + creep) + (sample % 2 == 0 ? 10 : -10);
        }
        nowUs = untilUs;
        listener.samples(new SampleBlock(stream, nowUs - rows * EVERY_US, rows, counts));
    }

    @Override
    public void safe() {
        armed = false;
    }

    @Override
    public void close() {
        safe();
    }
}
