package dev.lapwing.bench;

/** Hears what a bench reports. Called by the thread that calls {@link Bench#advance}. */
public interface BenchListener {
    /** Sampled counts; the block may be used again after the call, so copy what is kept. */
    void samples(SampleBlock block);

    /** A digital point changed; stamped at its first transition. The greeting's levels come as edges too. */
    void edge(String point, long atUs, boolean level);

    /** A set was executed, {@code atUs} being the measured instant. */
    void executed(long id, long dueUs, long atUs);

    /** The bench was armed and became safe by itself or because it was told to; {@code why} in the link's words. */
    void safe(long atUs, String why);

    /** Something of the bench is not right. {@code point} may be empty. */
    void fault(long atUs, String point, String why);

    /**
     * Reports were lost for good: nothing in that stretch of bench time can be relied upon for that stream or point.
     */
    void lost(String streamOrPoint, long fromUs, long toUs);
}
