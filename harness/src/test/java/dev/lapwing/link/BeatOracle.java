package dev.lapwing.link;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import java.util.HashSet;
import java.util.Set;

/** The contract's heartbeat rule, from what reaches the bench, kept apart from the code that it judges. */
final class BeatOracle {
    private static final long SAFE_WITHIN_US = 5_000;

    private final String session;
    private final Set<Integer> arms = new HashSet<>();
    private long limitUs;
    private long aliveUs = Long.MIN_VALUE;
    private long greatestK;

    BeatOracle(String session) {
        this.session = session;
    }

    void arrives(HostMessage message, long nowUs) {
        if (!message.session().equals(session)) {
            return;
        }
        if (message instanceof Arm arm && arms.add(arm.id())) {
            limitUs = Math.max(limitUs, arm.beatMs() * 1000L);
            aliveUs = nowUs;
        } else if (message instanceof Beat beat && beat.k() > greatestK) {
            greatestK = beat.k();
            if (beat.seenUs() <= nowUs && beat.seenUs() >= nowUs - limitUs) {
                aliveUs = nowUs;
            }
        }
    }

    /** The bench is armed now: may it be? */
    void checkArmed(long nowUs) {
        assertTrue(limitUs > 0, "armed, and no arm has come");
        assertTrue(
                nowUs - aliveUs <= limitUs + SAFE_WITHIN_US, "armed " + (nowUs - aliveUs) + " us after the last beat");
    }
}
