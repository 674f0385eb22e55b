package dev.lapwing.link;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** Consecutive samples of one stream. Not a record, because it holds an array. */
public final class Samples implements BenchMessage.Report {
    private final String session;
    private final long n;
    private final String name;
    private final int of;
    private final long t0Us;
    private final long everyUs;
    private final List<String> points;
    private final int[] counts;
    private final boolean dense;

    /**
     * Samples that travel as JSON.
     *
     * @param name    of the stream
     * @param of      id of the order that began it
     * @param t0Us    bench time of sample 0, in µs
     * @param everyUs sample interval in µs
     * @param points  in the order of each sample's counts, at least one
     * @param counts  sample by sample; kept, not copied
     */
    public Samples(
            String session, long n, String name, int of, long t0Us, long everyUs, List<String> points, int[] counts) {
        this(session, n, name, of, t0Us, everyUs, points, counts, false);
    }

    private Samples(
            String session,
            long n,
            String name,
            int of,
            long t0Us,
            long everyUs,
            List<String> points,
            int[] counts,
            boolean dense) {
        if (points.isEmpty() || counts.length % points.size() != 0) {
            throw new IllegalArgumentException(counts.length + " counts are no samples of " + points.size());
        }
        this.session = session;
        this.n = n;
        this.name = name;
        this.of = of;
        this.t0Us = t0Us;
        this.everyUs = everyUs;
        this.points = List.copyOf(points);
        this.counts = counts;
        this.dense = dense;
    }

    /** The same, travelling as CBOR. */
    public Samples asDense() {
        return new Samples(session, n, name, of, t0Us, everyUs, points, counts, true);
    }

    /** Whether they travel as CBOR. */
    public boolean dense() {
        return dense;
    }

    @Override
    public String session() {
        return session;
    }

    @Override
    public long n() {
        return n;
    }

    public String name() {
        return name;
    }

    public int of() {
        return of;
    }

    public long t0Us() {
        return t0Us;
    }

    public long everyUs() {
        return everyUs;
    }

    public List<String> points() {
        return points;
    }

    /** Number of samples. */
    public int rows() {
        return counts.length / points.size();
    }

    /** Count of one point, by its place in {@link #points()}. */
    public int count(int row, int point) {
        return counts[row * points.size() + point];
    }

    /** The counts themselves, sample by sample; not to be changed. */
    public int[] counts() {
        return counts;
    }

    @Override
    public long earliestUs() {
        return t0Us;
    }

    /** Bench time of the last sample, in µs; of sample 0 where there is none. */
    @Override
    public long latestUs() {
        return t0Us + Math.max(0, rows() - 1) * everyUs;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Samples that
                && session.equals(that.session)
                && n == that.n
                && name.equals(that.name)
                && of == that.of
                && t0Us == that.t0Us
                && everyUs == that.everyUs
                && points.equals(that.points)
                && Arrays.equals(counts, that.counts)
                && dense == that.dense;
    }

    @Override
    public int hashCode() {
        return Objects.hash(session, n, name, of, t0Us, everyUs, points, Arrays.hashCode(counts));
    }

    @Override
    public String toString() {
        return "Samples[" + session + ", n " + n + ", " + name + " of " + of + ", t0 " + t0Us + " us, every " + everyUs
                + " us, " + rows() + " x " + points + "]";
    }
}
