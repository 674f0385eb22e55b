package dev.lapwing.link;

import java.io.IOException;

/** Bytes that are no message, or a message whose members do not fit it. */
final class UnreadableMessage extends IOException {
    private static final long serialVersionUID = 1;

    UnreadableMessage(String message) {
        super(message);
    }

    /** Garbled lines are ordinary; where in the code they were met tells nobody anything. */
    @Override
    public synchronized Throwable fillInStackTrace() {
        return this;
    }
}
