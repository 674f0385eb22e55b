package dev.lapwing.unit;

/**
 * A deadman that dumps once it has been released for its time. Holding it again gives back as much time as it is
 * held, so that brief lifts are overlooked but a contact that chatters released for more than half the time dumps all
 * the same.
 */
final class Deadman {
    private static final double ROUNDING_SECONDS = 1e-9;

    private final double seconds;
    private final boolean warns;
    private double absenceSeconds;
    private boolean released;

    /**
     * @param seconds time of absence that makes it dump, in s
     * @param warns   whether it warns while that time runs
     */
    Deadman(double seconds, boolean warns) {
        this.seconds = seconds;
        this.warns = warns;
    }

    /** @param armed whether absence counts; where it does not, none is remembered */
    void step(double stepSeconds, boolean armed, boolean held) {
        released = armed && !held;
        if (!armed) {
            absenceSeconds = 0;
        } else if (held) {
            absenceSeconds = Math.max(0, absenceSeconds - stepSeconds);
        } else {
            absenceSeconds = Math.min(seconds, absenceSeconds + stepSeconds);
        }
    }

    /** Whether it calls for the dump now. */
    boolean expired() {
        return released && absenceSeconds >= seconds - ROUNDING_SECONDS;
    }

    boolean warning() {
        return warns && released && !expired();
    }
}
