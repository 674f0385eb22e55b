package dev.lapwing.link;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What a host says to a bench. Times are bench time in µs from boot, at most {@link Wire#NUMBER_MAX}. */
public sealed interface HostMessage {
    /** Eight lower-case hex digits. */
    String session();

    /** A message that is answered: every one but the heartbeat. */
    sealed interface Command extends HostMessage {
        /** 0 to 2³¹ − 1; the answer carries it too. */
        int id();
    }

    /** A command whose ids rise within a session, and whose answer the bench remembers. */
    sealed interface Ordered extends Command {}

    /** Opens a session, or greets again within it. */
    record Hello(String session, int id, int link, String host) implements Command {}

    /** Asks for the bench's clock, and for the next number that it will give. */
    record Ping(String session, int id) implements Command {}

    /** Lets the bench check its points. */
    record SelfTest(String session, int id) implements Ordered {}

    /**
     * Starts, replaces or (without points) ends the stream of that name.
     *
     * @param everyUs sample interval in µs, at least 1
     * @param batch   samples in a message, at least 1
     * @param flushMs time after a batch's first sample at which it is sent though not full, in ms, at least 1
     * @param dense   whether samples come as CBOR
     */
    record Stream(
            String session,
            int id,
            String name,
            List<String> points,
            long everyUs,
            int batch,
            int flushMs,
            boolean dense)
            implements Ordered {
        public Stream {
            points = List.copyOf(points);
        }
    }

    /**
     * Makes the outputs live at their safe values.
     *
     * @param boot    boot of the bench that is meant
     * @param untilUs bench time after which it must not be done any more
     * @param beatMs  heartbeat limit in ms
     * @param limits  by name of an analogue input
     */
    record Arm(String session, int id, String boot, long untilUs, int beatMs, Map<String, Limit> limits)
            implements Ordered {
        public Arm {
            limits = Collections.unmodifiableMap(new LinkedHashMap<>(limits));
        }
    }

    /** Counts between which an input must stay, both included. */
    record Limit(int low, int high) {
        public static final int NO_LOW = Integer.MIN_VALUE;
        public static final int NO_HIGH = Integer.MAX_VALUE;

        public boolean holds(int count) {
            return count >= low && count <= high;
        }
    }

    /**
     * Drives outputs together.
     *
     * @param points  counts by name of an output
     * @param atUs    bench time at which it is due, or {@link #ON_RECEIPT}
     * @param untilUs bench time after which it must not be done any more
     * @param overUs  time over which analogue outputs ramp, in µs; 0 for a step
     */
    record Set(String session, int id, String boot, Map<String, Integer> points, long atUs, long untilUs, long overUs)
            implements Ordered {
        /** Instead of a time: at once. */
        public static final long ON_RECEIPT = -1;

        public Set {
            points = Collections.unmodifiableMap(new LinkedHashMap<>(points));
        }

        public boolean timed() {
            return atUs != ON_RECEIPT;
        }
    }

    /**
     * Keeps an armed bench armed.
     *
     * @param k      rises with each beat of a session
     * @param seenUs greatest bench time that the host has received
     */
    record Beat(String session, long k, long seenUs) implements HostMessage {}

    /**
     * All outputs to their safe values. Executed even where session and id cannot be read; they are {@code ""} and
     * {@link #NO_ID} then, and nobody can be answered.
     */
    record Safe(String session, int id) implements Command {
        public static final int NO_ID = -1;

        public boolean answerable() {
            return id != NO_ID && !session.isEmpty();
        }
    }

    /**
     * Has session and id, but asks for something that cannot be read or is not known.
     *
     * @param m   what it called itself
     * @param why {@link Refusal#BAD_MESSAGE} or {@link Refusal#UNSUPPORTED}, or {@link Refusal#WRONG_LINK}
     * @param what for a human
     */
    record Unreadable(String session, int id, String m, Refusal why, String what) implements Command {
        /** Whether its id is one of those that rise. */
        public boolean ordered() {
            return switch (m) {
                case "stream", "arm", "set", "self-test" -> true;
                default -> false;
            };
        }
    }
}
