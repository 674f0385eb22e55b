package dev.lapwing.link;

import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Refused;
import java.util.Arrays;
import java.util.Optional;

/** Why a bench did not do what it was told. */
public enum Refusal {
    WRONG_LINK("wrong-link"),
    NO_SESSION("no-session"),
    BUSY("busy"),
    STALE("stale"),
    BAD_MESSAGE("bad-message"),
    UNSUPPORTED("unsupported"),
    NOT_ARMED("not-armed"),
    ARMED("armed"),
    STOP_BUTTON("stop-button"),
    FAULT("fault"),
    LATE("late"),
    TOO_FAR("too-far"),
    UNKNOWN_POINT("unknown-point"),
    WRONG_KIND("wrong-kind"),
    OUT_OF_RANGE("out-of-range"),
    LIMIT("limit"),
    QUEUE_FULL("queue-full"),
    SAFE("safe");

    private final String word;

    Refusal(String word) {
        this.word = word;
    }

    /** As it stands in a message. */
    public String word() {
        return word;
    }

    /** With free text for a human behind the word. */
    public String because(String what) {
        return what.isEmpty() ? word : word + ": " + what;
    }

    /** Whether that answer is a refusal for this reason. */
    public boolean is(Answer answer) {
        return answer instanceof Refused refused
                && of(refused.why()).filter(this::equals).isPresent();
    }

    /** The word that a {@code why} begins with; empty for one that this version does not know. */
    public static Optional<Refusal> of(String why) {
        int colon = why.indexOf(':');
        String said = colon < 0 ? why : why.substring(0, colon);
        return Arrays.stream(values()).filter(one -> one.word.equals(said)).findFirst();
    }
}
