package dev.lapwing.link;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** What a bench says to a host. Times are bench time in µs from boot, at most {@link Wire#NUMBER_MAX}. */
public sealed interface BenchMessage {
    /** Instead of a number or a time that a message does not carry. */
    long NONE = -1;

    /** The session that it belongs to. */
    String session();

    /** Greatest bench time that it carries, in µs, or {@link #NONE}. */
    long latestUs();

    /** Answers the command of that id. */
    sealed interface Answer extends BenchMessage {
        int id();

        /** One above the greatest number given when it was made, or {@link BenchMessage#NONE}. */
        default long next() {
            return NONE;
        }

        @Override
        default long latestUs() {
            return NONE;
        }
    }

    /** Something that the bench reports by itself, numbered so that its loss is seen. */
    sealed interface Report extends BenchMessage permits Samples, Edge, State, Safe, Fault {
        /** From 0 at boot. */
        long n();

        /** Least bench time that it is about, in µs. */
        default long earliestUs() {
            return latestUs();
        }
    }

    /** Answers a hello. */
    record Greeting(String session, int id, long next, long nowUs, BenchCard card) implements Answer {
        @Override
        public long latestUs() {
            return nowUs;
        }
    }

    /** Answers a ping. */
    record Pong(String session, int id, long next, long nowUs) implements Answer {
        @Override
        public long latestUs() {
            return nowUs;
        }
    }

    /** A timed set waits for its time, or a self-test runs. */
    record Queued(String session, int id) implements Answer {}

    /** Executed; {@code atUs} is the measured instant of a set, an arm or a safe, else {@link BenchMessage#NONE}. */
    record Done(String session, int id, long next, long atUs) implements Answer {
        @Override
        public long latestUs() {
            return atUs;
        }
    }

    /** Not executed. {@code why} begins with a word of {@link Refusal} or of a later version. */
    record Refused(String session, int id, String why) implements Answer {}

    /** A digital point changed, stamped at its first transition. */
    record Edge(String session, long n, long tUs, String point, boolean to) implements Report {
        @Override
        public long latestUs() {
            return tUs;
        }
    }

    /**
     * How the bench is.
     *
     * @param stop     whether the stop button is in
     * @param badLines how much it has received and could not read
     * @param digital  level by name of a digital point
     */
    record State(
            String session, long n, long tUs, boolean armed, boolean stop, long badLines, Map<String, Boolean> digital)
            implements Report {
        public State {
            digital = Collections.unmodifiableMap(new LinkedHashMap<>(digital));
        }

        @Override
        public long latestUs() {
            return tUs;
        }
    }

    /**
     * The bench was armed and became safe.
     *
     * @param why a word of {@link SafeReason} or of a later version
     * @param by  session that asked for it, or empty
     */
    record Safe(String session, long n, long tUs, String why, String by) implements Report {
        @Override
        public long latestUs() {
            return tUs;
        }
    }

    /** Something is not right; {@code point} may be empty. */
    record Fault(String session, long n, long tUs, String point, String why) implements Report {
        @Override
        public long latestUs() {
            return tUs;
        }
    }
}
