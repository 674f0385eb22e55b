package dev.lapwing.bench;

import java.util.List;

/**
 * How long answers took.
 *
 * @param nanos of those that came, ascending, in ns of the machine's clock
 * @param lost  how many did not come
 */
public record RoundTrips(List<Long> nanos, int lost) {
    public RoundTrips {
        nanos = nanos.stream().sorted().toList();
    }

    /** How many were asked for. */
    public int asked() {
        return nanos.size() + lost;
    }

    /** What so many per cent do not exceed (nearest rank), in ms; NaN if none came. */
    public double percentileMs(double percent) {
        if (nanos.isEmpty()) {
            return Double.NaN;
        }
        int rank = (int) Math.ceil(percent / 100 * nanos.size());
        return nanos.get(Math.max(1, rank) - 1) * 1e-6;
    }
}
