package dev.lapwing.bench;

/** Hears what an implementation names, and lets the rest pass. Not for what keeps evidence, where nothing may pass. */
public interface SelectiveListener extends BenchListener {
    @Override
    default void samples(SampleBlock block) {}

    @Override
    default void edge(String point, long atUs, boolean level) {}

    @Override
    default void executed(long id, long dueUs, long atUs) {}

    @Override
    default void safe(long atUs, String why) {}

    @Override
    default void fault(long atUs, String point, String why) {}

    @Override
    default void lost(String streamOrPoint, long fromUs, long toUs) {}
}
