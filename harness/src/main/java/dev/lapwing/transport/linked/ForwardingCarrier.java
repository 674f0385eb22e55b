package dev.lapwing.transport.linked;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;

/** A carrier that leaves everything to another, but for what an implementation says itself. */
public interface ForwardingCarrier extends BenchCarrier {
    /** The other. */
    BenchCarrier to();

    @Override
    default void listen(Hearing hearing) {
        to().listen(hearing);
    }

    @Override
    default Parcel parcel(BenchMessage message) {
        return to().parcel(message);
    }

    @Override
    default void startedAnew(BenchCard card) {
        to().startedAnew(card);
    }

    @Override
    default long bytesPerSecond() {
        return to().bytesPerSecond();
    }

    @Override
    default long badPieces() {
        return to().badPieces();
    }

    @Override
    default void close() {
        to().close();
    }
}
