package dev.lapwing.transport.linked;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;

/** What carries a bench's messages to its host. */
public interface BenchCarrier extends AutoCloseable {

    /** Begins to listen; from now on what comes is told from a thread of the carrier's own. Called once. */
    void listen(Hearing hearing);

    /** Makes a message ready to be sent. */
    Parcel parcel(BenchMessage message);

    /** The bench started anew: wherever the carrier shows who is there, it is this one from now on. */
    void startedAnew(BenchCard card);

    /** What it can carry, in bytes/s; 0 if nothing bounds it. */
    long bytesPerSecond();

    /** Pieces of what came that could not be read. For any thread. */
    long badPieces();

    /** Lets go of everything, threads included. */
    @Override
    void close();

    /** A message ready to be sent. */
    interface Parcel {
        /** How long it takes on the line, in ns of the machine's clock. */
        long lineNanos();

        /** So much of it has gone out by now, 0 to 1; only what keeps the line for long is told so. */
        void goesOut(double share);

        /** Sends all of it that has not gone out; what the line does not take is gone. */
        void send();
    }

    /** Hears what comes. */
    interface Hearing {
        /** Before anybody listens. */
        Hearing NONE = new Hearing() {
            @Override
            public void came(HostMessage message, long lineNanos) {}

            @Override
            public void ended(String why) {}
        };

        /** @param lineNanos how long it took on the line, in ns of the machine's clock */
        void came(HostMessage message, long lineNanos);

        /** Nothing will come any more, for a reason that does not mend itself. */
        void ended(String why);
    }
}
