package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
import java.util.List;

/** Means of some signals over stretches of one second, side by side, so that they can be compared. */
final class BlockMeans {
    static final long BLOCK_US = 1_000_000;
    /**
     * A mean that moves by less from one block to the next stands still, in Pa (0.1 psi). Common practice, no source.
     */
    private static final double REST = 690;

    private final List<Signal> signals;
    private final Window run;
    private final List<double[]> means = new ArrayList<>();

    BlockMeans(List<Signal> signals, Recording recording, Window run) {
        this.signals = signals;
        this.run = run;
        int count = (int) ((run.toUs() - run.fromUs()) / BLOCK_US);
        for (Signal signal : signals) {
            means.add(means(recording.sampled(signal).orElseThrow().trace(), count));
        }
    }

    private double[] means(Trace trace, int count) {
        double[] found = new double[count];
        int next = trace.firstAtOrAfter(run.fromUs());
        for (int block = 0; block < count; block++) {
            double sum = 0;
            int samples = 0;
            for (; next < trace.size() && trace.timeUs(next) <= window(block).toUs(); next++, samples++) {
                sum += trace.value(next);
            }
            found[block] = samples == 0 ? Double.NaN : sum / samples;
        }
        return found;
    }

    List<Signal> signals() {
        return signals;
    }

    int blocks() {
        return means.isEmpty() ? 0 : means.get(0).length;
    }

    Window window(int block) {
        long fromUs = run.fromUs() + block * BLOCK_US;
        return new Window(fromUs, fromUs + BLOCK_US - 1);
    }

    /** NaN where there were no samples. */
    double mean(int signal, int block) {
        return means.get(signal)[block];
    }

    /** True where all of them were read and stand still. */
    boolean rests(int block) {
        for (int i = 0; i < means.size(); i++) {
            if (block == 0 || !(Math.abs(mean(i, block) - mean(i, block - 1)) <= REST)) {
                return false;
            }
        }
        return !means.isEmpty();
    }

    /** True where they also stand still into the next block: nothing began to move within this one. */
    boolean restsOn(int block) {
        return block + 1 < blocks() && rests(block) && rests(block + 1);
    }

    /** The signal that stands in the middle of all but one. */
    int middle(int block, int without) {
        List<Integer> others = new ArrayList<>();
        for (int i = 0; i < means.size(); i++) {
            if (i != without) {
                others.add(i);
            }
        }
        others.sort((a, b) -> Double.compare(mean(a, block), mean(b, block)));
        return others.get((others.size() - 1) / 2);
    }

    /** How far a signal is from the middle of the others. */
    double off(int signal, int block) {
        return mean(signal, block) - mean(middle(block, signal), block);
    }

    /** The signal that is furthest from the middle of the others. */
    int odd(int block) {
        int odd = 0;
        for (int i = 1; i < means.size(); i++) {
            odd = Math.abs(off(i, block)) > Math.abs(off(odd, block)) ? i : odd;
        }
        return odd;
    }
}
