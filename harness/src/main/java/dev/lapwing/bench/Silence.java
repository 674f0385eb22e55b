package dev.lapwing.bench;

/** Hears a bench and does nothing about it. */
public enum Silence implements BenchListener {
    INSTANCE;

    @Override
    public void samples(SampleBlock block) {}

    @Override
    public void edge(String point, long atUs, boolean level) {}

    @Override
    public void executed(long id, long dueUs, long atUs) {}

    @Override
    public void safe(long atUs, String why) {}

    @Override
    public void fault(long atUs, String point, String why) {}

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {}
}
