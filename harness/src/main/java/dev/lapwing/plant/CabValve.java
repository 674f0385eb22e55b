package dev.lapwing.plant;

/**
 * What one cab's driver's brake valve does with the brake pipe. Every port is independent of the others, so that faulty
 * combinations, such as a dump with the feed still open, can be set.
 *
 * @param feedShare      opening of the feed, 0 (shut) to 1
 * @param feedPascals    gauge pressure that the feed regulates to
 * @param serviceShare   opening of the service exhaust, 0 to 1
 * @param servicePascals gauge pressure at which the service exhaust has closed; a maintaining valve feeds to the same
 *                       one
 * @param emergencyShare opening of the emergency port, 0 to 1
 * @param dumpShare      opening of the deadman and vigilance vent, 0 to 1
 */
public record CabValve(
        double feedShare,
        double feedPascals,
        double serviceShare,
        double servicePascals,
        double emergencyShare,
        double dumpShare) {
    /** Nothing open: the pipe is neither fed nor vented. Also what a closed cab does. */
    public static final CabValve LAP = new CabValve(0, 0, 0, 0, 0, 0);
    /** Emergency port fully open, feed cut. */
    public static final CabValve EMERGENCY = new CabValve(0, 0, 0, 0, 1, 0);
    /** Deadman or vigilance vent fully open, feed cut. */
    public static final CabValve DUMP = new CabValve(0, 0, 0, 0, 0, 1);

    public CabValve {
        Require.share("feed opening", feedShare);
        Require.notNegative("feed pressure", feedPascals, "Pa");
        Require.share("service opening", serviceShare);
        Require.notNegative("service pressure", servicePascals, "Pa");
        Require.share("emergency opening", emergencyShare);
        Require.share("dump opening", dumpShare);
    }

    /** Feeds the pipe to a gauge pressure and vents nothing. */
    public static CabValve feeding(double pascals) {
        return new CabValve(1, pascals, 0, 0, 0, 0);
    }

    /** Exhausts the pipe down to a gauge pressure, and does not make up leaks. */
    public static CabValve graduated(double pascals) {
        return new CabValve(0, 0, 1, pascals, 0, 0);
    }

    /** The same with another opening of the feed, as where its capacity is reduced. */
    public CabValve withFeedShare(double share) {
        return new CabValve(share, feedPascals, serviceShare, servicePascals, emergencyShare, dumpShare);
    }

    /** The same with another opening of the deadman and vigilance vent. */
    public CabValve withDumpShare(double share) {
        return new CabValve(feedShare, feedPascals, serviceShare, servicePascals, emergencyShare, share);
    }
}
