package dev.lapwing.measure;

import dev.lapwing.measure.Counts.Extent;

/** Looks at the counts of one point as they come, some at a time; a row of equal ones goes on from time to time. */
public final class RunningExtent {
    private int last;
    /** How many like the last one came last. */
    private int alike;

    /**
     * Of the next counts; a row that began among those before counts as a whole.
     *
     * @param counts of which those at {@code from}, {@code from + step} and so on to before {@code to} are meant
     */
    public Extent next(int[] counts, int from, int to, int step) {
        int least = Integer.MAX_VALUE;
        int greatest = Integer.MIN_VALUE;
        int longest = 0;
        int before = last;
        int row = alike;
        for (int i = from; i < to; i += step) {
            int count = counts[i];
            least = Math.min(least, count);
            greatest = Math.max(greatest, count);
            row = count == before ? row + 1 : 1;
            longest = Math.max(longest, row);
            before = count;
        }
        last = before;
        alike = row;
        return new Extent(least, greatest, longest);
    }
}
