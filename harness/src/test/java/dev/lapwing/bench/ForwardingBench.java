package dev.lapwing.bench;

import java.util.Map;

/** A bench that leaves everything to another, but for what an implementation says itself. */
public interface ForwardingBench extends Bench {
    /** The other. */
    Bench to();

    @Override
    default Identity identity() {
        return to().identity();
    }

    @Override
    default long nowUs() {
        return to().nowUs();
    }

    @Override
    default long lagUs() {
        return to().lagUs();
    }

    @Override
    default void arm() throws BenchFailure {
        to().arm();
    }

    @Override
    default void watch() throws BenchFailure {
        to().watch();
    }

    @Override
    default void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        to().set(id, counts, atUs, overUs);
    }

    @Override
    default void advance(long untilUs, BenchListener listener) throws BenchFailure {
        to().advance(untilUs, listener);
    }

    @Override
    default boolean awaits(long us) {
        return to().awaits(us);
    }

    @Override
    default void alive() {
        to().alive();
    }

    @Override
    default void safe() {
        to().safe();
    }

    @Override
    default void close() {
        to().close();
    }
}
