package dev.lapwing.evidence;

/** What was to be a run record is none, or is damaged so that it proves nothing. The message is fit for a user. */
public final class UnreadableRecord extends Exception {
    private static final long serialVersionUID = 1;

    public UnreadableRecord(String message) {
        super(message);
    }

    public UnreadableRecord(String message, Throwable cause) {
        super(message, cause);
    }
}
