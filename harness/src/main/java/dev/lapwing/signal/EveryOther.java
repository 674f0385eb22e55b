package dev.lapwing.signal;

/**
 * Every other sample of a trace. What the one half of the samples was chosen by, the other half tells without bias: the
 * greatest of many noisy values is as much noise as signal, and the noise of the other half knows nothing of it.
 *
 * @param trace of which
 * @param first 0 or 1: index of its first sample
 */
public record EveryOther(Trace trace, int first) implements Trace {

    @Override
    public int size() {
        return (trace.size() + 1 - first) / 2;
    }

    @Override
    public long timeUs(int i) {
        return trace.timeUs(2 * i + first);
    }

    @Override
    public double value(int i) {
        return trace.value(2 * i + first);
    }
}
