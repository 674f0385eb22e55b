package dev.lapwing.evidence;

/**
 * The record of a run cannot be written: disk full, directory gone, share lost. The message is fit for a user and names
 * the file. A run without its record is worth nothing, so whoever catches it makes the bench safe and ends the run.
 */
public final class RecordFailure extends RuntimeException {
    private static final long serialVersionUID = 1;

    public RecordFailure(String message, Throwable cause) {
        super(message, cause);
    }
}
