package dev.lapwing.cli;

import dev.lapwing.finding.Verdict;

/**
 * What the process tells its caller. One rule for every command: {@link #USAGE} where the files or words that it was
 * given are wrong, and then nothing was done; {@link #ERROR} where something broke afterwards; one of the others for
 * what it was asked to find out.
 */
enum ExitCode {
    PASS(0),
    FAIL(1),
    INCONCLUSIVE(2),
    ERROR(3),
    /** Files or usage: nothing was run. */
    USAGE(64),
    /** A bug of the harness. */
    BUG(70);

    private final int code;

    ExitCode(int code) {
        this.code = code;
    }

    int code() {
        return code;
    }

    /** A run of which nothing could be asked is no pass. */
    static ExitCode of(Verdict verdict) {
        return switch (verdict) {
            case PASS -> PASS;
            case FAIL -> FAIL;
            case NONE, INCONCLUSIVE -> INCONCLUSIVE;
            case ERROR -> ERROR;
        };
    }
}
