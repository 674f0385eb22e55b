package dev.lapwing.transport.linked;

/**
 * A fault and its moment.
 *
 * @param atNanos when it strikes, in ns of bench time after the bench was switched on, not negative
 */
public record TimedFault(BenchFault fault, long atNanos) {
    public TimedFault {
        if (atNanos < 0) {
            throw new IllegalArgumentException("a fault strikes after the bench was switched on, not " + atNanos);
        }
    }
}
