package dev.lapwing.finding;

import java.util.Collection;
import java.util.Locale;
import java.util.function.Function;

/**
 * What is said of an expectation, a sequence or a run. The order is the order of overwriting: a whole is as its
 * greatest part (ETSI ES 201 873-1, overwriting rules for verdicts).
 */
public enum Verdict {
    /** Not run, or the fixture lacks what is needed. Never a pass. */
    NONE,
    PASS,
    /** Within the guard band, or not measured. */
    INCONCLUSIVE,
    /** Measured, and outside. */
    FAIL,
    /** Bench, link or harness broke, or the operator stopped. */
    ERROR;

    /** In lower case, as people read it. */
    public String text() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it says something of the unit, good or bad. */
    public boolean decides() {
        return this == PASS || this == FAIL;
    }

    public Verdict or(Verdict other) {
        return compareTo(other) >= 0 ? this : other;
    }

    /** The greatest of them; {@link #NONE} of nothing. */
    public static Verdict greatest(Collection<Verdict> verdicts) {
        return greatest(verdicts, Function.identity());
    }

    /** The greatest of what each of them came to. */
    public static <T> Verdict greatest(Collection<T> all, Function<T, Verdict> verdict) {
        return all.stream().map(verdict).reduce(NONE, Verdict::or);
    }
}
