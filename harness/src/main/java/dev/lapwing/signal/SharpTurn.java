package dev.lapwing.signal;

import java.util.Optional;

/**
 * When a signal that turns sharply between two samples may have gone through a level, as the chords beside tell. Slopes
 * are in that of the chord between the two samples, times in the step between them, from the first.
 *
 * @param likely when it went through
 * @param reach  bound of what that may be off
 */
record SharpTurn(double likely, double reach) {
    /** What has less of the chord's slope than this stands still. Common practice, no source. */
    private static final double STILL = 0.05;
    /** What loses more of its slope than this from one step to the next has no slope to go back by. Likewise. */
    private static final double SLOWS_MOST = 4;

    /**
     * The passage, if the signal turns sharply.
     *
     * @param share  of the step after which the chord itself is at the level, 0 to 1
     * @param before slope of the chord before
     * @param after  slope of the chord after
     * @param later  slope of the chord after that one
     * @param noise  by how much noise may have made what stands still seem to move
     */
    static Optional<SharpTurn> of(double share, double before, double after, double later, double noise) {
        double still = STILL + noise;
        if (Math.abs(before) <= still && after > still) {
            return Optional.of(began(share, after, after / later));
        }
        double less = Math.min(before, after);
        double more = Math.max(before, after);
        if (more - less > 1 && less <= 1 && more >= 1) {
            return Optional.of(bent(share, before, after));
        }
        return Math.abs(after) <= still && more + noise < 1
                ? Optional.of(anywhere(0, before > 0 ? Math.min(1, share / before) : 1))
                : Optional.empty();
    }

    /**
     * What stood still and began between the samples is quickest at its beginning, or as quick as after: a first-order
     * response, 1 − e^(−t/τ), that slows down that many times from one step to the next, gone back along from the
     * second sample. By as much as it differs from a straight line with the slope after is it in doubt. What would
     * have begun before the first sample was quicker yet: it began there, or at any time between, as likely the one
     * as the other.
     */
    private static SharpTurn began(double share, double after, double slows) {
        double straight = Math.max(0, 1 - (1 - share) / after);
        SharpTurn anywhere = anywhere(straight, 1);
        if (slows <= 0 || slows > SLOWS_MOST) {
            return anywhere;
        }
        if (back(0, after, slows) < 0) {
            double likely = (straight + anywhere.likely) / 2;
            return new SharpTurn(likely, 1 - likely);
        }
        double likely = back(share, after, slows);
        return new SharpTurn(likely, Math.abs(likely - straight));
    }

    /** Where the response that goes on from the second sample was at that share of the step. */
    private static double back(double share, double after, double slows) {
        return slows < 1 + 1e-6
                ? 1 - (1 - share) / after
                : 1 - StrictMath.log1p((1 - share) * (1 - 1 / slows) / after) / StrictMath.log(slows);
    }

    /**
     * A curve whose slope only rises, or only falls, lies between the chord and the straight lines that go on from
     * either sample with the slopes beside; so does the time.
     */
    private static SharpTurn bent(double share, double before, double after) {
        double first = before > 0 ? share / before : Double.POSITIVE_INFINITY;
        double second = after > 0 ? 1 - (1 - share) / after : Double.NEGATIVE_INFINITY;
        double lines = after > before ? Math.min(first, second) : Math.max(first, second);
        return new SharpTurn((share + lines) / 2, Math.abs(lines - share) / 2);
    }

    /** What jumped did so at any time at all between the samples: was at the level then, or else before or after. */
    private static SharpTurn anywhere(double earliest, double latest) {
        double mean = latest - (latest * latest - earliest * earliest) / 2;
        return new SharpTurn(mean, Math.max(mean - earliest, latest - mean));
    }
}
