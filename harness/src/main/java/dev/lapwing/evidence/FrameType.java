package dev.lapwing.evidence;

import java.util.Optional;

/** What a frame of the log holds. Codes are part of the file format: never used again for something else. */
enum FrameType {
    /** SHA-256 of the plan; always first. */
    PLAN(1),
    /** Name, interval and points of a stream, under a number. */
    STREAM(2),
    SAMPLES(3),
    EDGE(4),
    /** A command as due. */
    DUE(5),
    /** A command as executed. */
    EXECUTED(6),
    OPENED(7),
    CLOSED(8),
    SAFE(9),
    FAULT(10),
    LOST(11),
    TROUBLE(12),
    MARK(13),
    END(14);

    private final int code;

    FrameType(int code) {
        this.code = code;
    }

    int code() {
        return code;
    }

    static Optional<FrameType> of(int code) {
        return code >= 1 && code <= values().length ? Optional.of(values()[code - 1]) : Optional.empty();
    }
}
