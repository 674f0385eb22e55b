package dev.lapwing.bench;

/** The bench or its link did not do what was asked. The message is fit for a user. Never the unit's fault. */
public final class BenchFailure extends Exception {
    private static final long serialVersionUID = 1;

    public BenchFailure(String message) {
        super(message);
    }

    public BenchFailure(String message, Throwable cause) {
        super(message, cause);
    }
}
