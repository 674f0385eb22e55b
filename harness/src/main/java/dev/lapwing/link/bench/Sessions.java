package dev.lapwing.link.bench;

import java.util.ArrayDeque;
import java.util.Deque;

/** Who may speak: the session that the bench is in, and those that it remembers as ended. */
final class Sessions {
    private static final int ENDED_MAX = 16;

    /** How a session stands with the bench. */
    enum Standing {
        /** The bench is in no session yet. */
        NONE,
        OWN,
        ENDED,
        OTHER
    }

    private final Deque<String> ended = new ArrayDeque<>();
    private String current = "";

    Standing standing(String session) {
        if (session.equals(current)) {
            return Standing.OWN;
        }
        if (ended.contains(session)) {
            return Standing.ENDED;
        }
        return current.isEmpty() ? Standing.NONE : Standing.OTHER;
    }

    void open(String session) {
        if (!current.isEmpty()) {
            ended.addLast(current);
        }
        if (ended.size() > ENDED_MAX) {
            ended.removeFirst();
        }
        current = session;
    }
}
