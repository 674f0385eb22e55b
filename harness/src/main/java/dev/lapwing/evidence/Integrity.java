package dev.lapwing.evidence;

/**
 * Whether a record is all there and unchanged.
 *
 * @param state what it is
 * @param why   one sentence for people; empty if whole
 */
public record Integrity(State state, String why) {

    static final Integrity WHOLE = new Integrity(State.WHOLE, "");

    /** In order of badness. */
    public enum State {
        /** Complete, and every check agrees. */
        WHOLE,
        /** The log ends before its end: harness or machine stopped. What is there is sound. */
        CUT,
        /** Something was changed after it was written. It proves nothing from there on. */
        DAMAGED
    }

    Integrity or(Integrity other) {
        return state.compareTo(other.state) >= 0 ? this : other;
    }
}
