package dev.lapwing.signal;

/**
 * How far a signal lies above a line of the time, below it counting below 0; beyond its ends the line goes on straight.
 *
 * @param line     its {@code x} in s after {@code originUs}, its {@code y} in the trace's unit
 * @param originUs bench time, in µs
 */
public record AboveLine(Trace trace, Polyline line, long originUs) implements Trace {
    @Override
    public int size() {
        return trace.size();
    }

    @Override
    public long timeUs(int i) {
        return trace.timeUs(i);
    }

    @Override
    public double value(int i) {
        double x = (trace.timeUs(i) - originUs) * 1e-6;
        double beyond = x - Math.max(line.from(), Math.min(x, line.to()));
        return trace.value(i) - line.at(x) - (beyond == 0 ? 0 : beyond * line.slope(x));
    }
}
