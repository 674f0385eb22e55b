package dev.lapwing.measure;

/**
 * How much easier levels are made to reach; below 0 harder.
 *
 * @param doubts so many times the expanded uncertainty of a mean of the channel's readings
 * @param noises and so many standard deviations of what noise leaves in one
 */
record Ease(double doubts, double noises) {
    /** So many standard deviations of a mean noise carries nothing by itself. Common practice, no source. */
    private static final double NOISE = 5;

    static final Ease NONE = new Ease(0, 0);
    /** Easier by U: when something may have come. */
    static final Ease PERHAPS = new Ease(1, 0);
    /** Harder by U: when it surely had. */
    static final Ease SURELY = new Ease(-1, 0);
    /** Easier by U and by noise: what did not come with it did not come at all. */
    static final Ease AT_ALL = new Ease(1, NOISE);

    /** Easier by what noise can do. */
    Ease looser() {
        return new Ease(doubts, noises + NOISE);
    }

    /** Harder by what noise can do. */
    Ease tighter() {
        return new Ease(doubts, noises - NOISE);
    }

    /** By how much a level of that channel is moved, its signal's unit. */
    double of(Sampled sampled) {
        return doubts * Channels.expanded(sampled) + noises * Channels.meanNoise(sampled);
    }
}
