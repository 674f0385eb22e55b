package dev.lapwing.signal;

import java.util.OptionalDouble;

/**
 * How far a formula is from changing its truth, at each sample in turn: one pass over the samples, in a time that grows
 * with their number and the formula's length and not with its bounds, in a memory that grows with its bounds alone.
 * Samples come one by one; a value comes out as soon as nothing later can change it. For one thread.
 *
 * <p>A sample holds from its instant until the next one. The bounds of a formula looked at from a sample at t take in
 * what holds from t + from to t + to, both included. Values combine as least and greatest (Fainekos and Pappas 2009; A.
 * Donzé and O. Maler, "Robust Satisfaction of Temporal Logic over Real-Valued Signals", FORMATS 2010).
 */
public final class Robustness {
    private final SampleTimes times = new SampleTimes();
    private final FormulaNode root;
    private long given;

    public Robustness(Formula formula) {
        root = FormulaNode.of(formula, times);
    }

    /**
     * Takes a sample.
     *
     * @param timeUs after that of the one before
     * @param values of the atoms, by number; infinite for what is true or false without a measure
     */
    public void sample(long timeUs, double[] values) {
        times.add(timeUs);
        root.sample(timeUs - times.firstUs(), values);
        root.pump();
    }

    /** True if the value at the oldest sample that was not taken yet is known. */
    public boolean known() {
        return root.out().size() > 0;
    }

    /** Bench time of that sample, in µs. */
    public long timeUs() {
        return times.timeUs(given);
    }

    /** Its value. */
    public double value() {
        return root.out().value();
    }

    /** Number of the atom that decides it. */
    public int atom() {
        return Witnessed.atom(root.out().witness());
    }

    /** Time of the sample at which that atom decides it, in µs. */
    public long decidedUs() {
        return times.firstUs() + Witnessed.sinceFirstUs(root.out().witness());
    }

    /** True if the value has the other sign than the atom that decides it. */
    public boolean turned() {
        return Witnessed.isTurned(root.out().witness());
    }

    /** Goes on to the next sample. */
    public void next() {
        root.out().drop();
        given++;
        times.forgetBefore(given);
    }

    /** The value at the first sample, if the samples tell it. For samples that are all there. */
    public static OptionalDouble first(Formula formula, long[] timesUs, double[][] samples) {
        Robustness robustness = new Robustness(formula);
        for (int i = 0; i < timesUs.length && !robustness.known(); i++) {
            robustness.sample(timesUs[i], samples[i]);
        }
        return robustness.known() ? OptionalDouble.of(robustness.value()) : OptionalDouble.empty();
    }
}
