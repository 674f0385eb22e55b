package dev.lapwing.transport.linked;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import java.io.IOException;

/** What carries a host's messages to its bench. */
public interface HostCarrier extends AutoCloseable {

    /** Begins to listen; from now on what comes is told from a thread of the carrier's own. Called once. */
    void listen(Hearing hearing);

    /** Brings a message on its way. May block; then {@link #close} from another thread frees it. For one thread. */
    void send(HostMessage message) throws IOException;

    /** How long a message of so many bytes keeps the way, in ns; 0 where nothing bounds what it carries. */
    long lineNanos(int bytes);

    /** What may be wrong when nobody has answered: a sentence for the user, after what came so far. For any thread. */
    String whyNobody();

    /** Lets go of everything, threads included. May be called from any thread and again. */
    @Override
    void close();

    /** Hears what comes. */
    interface Hearing {
        /** Before anybody listens. */
        Hearing NONE = new Hearing() {
            @Override
            public void came(BenchMessage message) {}

            @Override
            public void ended(String why) {}
        };

        void came(BenchMessage message);

        /** Nothing will come any more. */
        void ended(String why);
    }
}
