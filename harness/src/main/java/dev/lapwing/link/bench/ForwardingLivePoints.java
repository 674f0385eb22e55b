package dev.lapwing.link.bench;

/** The same of terminals whose surroundings go on by being told to. */
public interface ForwardingLivePoints extends ForwardingPoints, LivePoints {
    @Override
    LivePoints to();

    @Override
    default long us(long nanos) {
        return to().us(nanos);
    }

    @Override
    default long nanos(long us) {
        return to().nanos(us);
    }

    @Override
    default void passUntil(long us, Edges edges) {
        to().passUntil(us, edges);
    }
}
