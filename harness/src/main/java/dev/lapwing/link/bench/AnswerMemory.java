package dev.lapwing.link.bench;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.BenchMessage.Refused;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Commands whose ids rise: what was answered to the last of them, so that a repeat is not executed again. */
final class AnswerMemory {
    private static final int ENDED_MAX = 256;

    private final Set<Integer> pending = new HashSet<>();
    /** In the order in which they ended. */
    private final Map<Integer, Ending> ended = new LinkedHashMap<>();

    private int greatest = -1;

    /**
     * How a command ended: refused if {@code why} is not empty, else done, at an instant or {@link BenchMessage#NONE}.
     */
    record Ending(String why, long atUs) {
        static Ending done() {
            return new Ending("", BenchMessage.NONE);
        }

        static Ending done(long atUs) {
            return new Ending("", atUs);
        }

        static Ending refused(String why) {
            return new Ending(why, BenchMessage.NONE);
        }

        Answer answer(String session, int id, long next) {
            return why.isEmpty() ? new Done(session, id, next, atUs) : new Refused(session, id, why);
        }
    }

    /** What a repeat is answered; empty for an id that is not remembered. */
    Optional<Answer> repeat(String session, int id, long next) {
        if (pending.contains(id)) {
            return Optional.of(new Queued(session, id));
        }
        return Optional.ofNullable(ended.get(id)).map(ending -> ending.answer(session, id, next));
    }

    /** Whether it is not above every id before it. */
    boolean isOld(int id) {
        return id <= greatest;
    }

    void begin(int id) {
        greatest = id;
        pending.add(id);
    }

    void end(int id, Ending ending) {
        pending.remove(id);
        ended.put(id, ending);
        if (ended.size() > ENDED_MAX) {
            ended.remove(ended.keySet().iterator().next());
        }
    }

    void forget() {
        pending.clear();
        ended.clear();
        greatest = -1;
    }
}
