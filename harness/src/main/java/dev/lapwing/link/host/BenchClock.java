package dev.lapwing.link.host;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a host knows of its bench's clock, as bounds. Source of the bound: F. Cristian, "Probabilistic clock
 * synchronization", Distributed Computing 3 (1989): the bench read its clock somewhere between the sending of the
 * question and the coming of the answer. Host times are of the host's clock; inside they are kept at the bench's pace.
 */
public final class BenchClock {
    private static final long MINUTE_NANOS = 60_000_000_000L;
    /** Below this a rate says nothing. */
    private static final long RATE_NANOS_MIN = 1_000_000_000L;
    /** Exchanges of one minute at more than any sensible pace. */
    private static final int KEPT_MAX = 4096;

    private final double ratePpmMax;
    private final double speed;
    /** Those of the last minute that no later and narrower one makes useless. */
    private final Deque<Exchange> recent = new ArrayDeque<>();

    private @Nullable Exchange first;
    private @Nullable Exchange last;
    private String doubt = "";

    /** Bench offset (host − bench) lies from {@code low} to {@code high}, in ns, as of {@code atNanos}. */
    private record Exchange(long sentNanos, long atNanos, long benchNanos) {
        long low() {
            return sentNanos - benchNanos;
        }

        long high() {
            return atNanos - benchNanos;
        }

        long width() {
            return atNanos - sentNanos;
        }
    }

    /**
     * Bounds of the bench's rate error relative to the host's clock.
     *
     * @param lowPpm  it gains at least so many parts per million
     * @param highPpm it gains at most so many
     */
    public record Rate(double lowPpm, double highPpm) {}

    /**
     * @param benchPpm what the bench states of its clock's rate error, in parts per million
     * @param hostPpm  the same of the host's monotonic clock
     */
    public BenchClock(double benchPpm, double hostPpm) {
        this(benchPpm, hostPpm, 1);
    }

    /** @param speed how many seconds of bench time go by in one of the host's */
    public BenchClock(double benchPpm, double hostPpm, double speed) {
        this.ratePpmMax = benchPpm + hostPpm;
        this.speed = speed;
    }

    private long paced(long hostNanos) {
        return speed == 1 ? hostNanos : Math.round(hostNanos * speed);
    }

    private long hostNanos(long paced) {
        return speed == 1 ? paced : (long) Math.ceil(paced / speed);
    }

    /**
     * A question and its answer.
     *
     * @param sentNanos     host time, not after the question went out
     * @param receivedNanos host time, not before the answer came in
     * @param benchUs       what the bench's clock said in between
     */
    public void exchange(long sentNanos, long receivedNanos, long benchUs) {
        Exchange next = new Exchange(paced(sentNanos), paced(receivedNanos), benchUs * 1_000);
        judge(next);
        if (!doubt.isEmpty()) {
            // What the jumped or false clock said before is of no more use.
            recent.clear();
        }
        while (!recent.isEmpty() && recent.getLast().width() >= next.width()) {
            recent.removeLast();
        }
        recent.addLast(next);
        while (recent.getFirst().atNanos < next.atNanos - MINUTE_NANOS || recent.size() > KEPT_MAX) {
            recent.removeFirst();
        }
        if (first == null || next.atNanos - first.atNanos < MINUTE_NANOS && next.width() < first.width()) {
            first = next;
        }
        last = next;
    }

    public boolean known() {
        return last != null;
    }

    /** Bench time at that host time, at the least, in µs. */
    public long earliestUs(long nowNanos) {
        long now = paced(nowNanos);
        return Math.floorDiv(now - high(now), 1_000);
    }

    /** Bench time at that host time, at the most, in µs. */
    public long latestUs(long nowNanos) {
        long now = paced(nowNanos);
        return Math.floorDiv(now - low(now), 1_000) + 1;
    }

    /** Whether the bench cannot have said that yet: it is another boot's; a clock in doubt forbids nothing. */
    boolean isAhead(long benchUs, long nowNanos) {
        return doubt.isEmpty() && benchUs > latestUs(nowNanos);
    }

    /** Host time at which that bench time has certainly passed, as far as is known at {@code nowNanos}. */
    public long passedNanos(long benchUs, long nowNanos) {
        return hostNanos(benchUs * 1_000 + high(paced(nowNanos)));
    }

    /** Width of the interval in which the bench's time lies, in µs. */
    public long widthUs(long nowNanos) {
        return latestUs(nowNanos) - earliestUs(nowNanos);
    }

    /** Rate between the best exchange of the first minute and the last one; empty within a second of each other. */
    public Optional<Rate> rate() {
        return first == null || last == null ? Optional.empty() : rate(first, last);
    }

    /** Why the clock cannot run as the bench says; empty as long as it can. */
    public String doubt() {
        return doubt;
    }

    private void judge(Exchange next) {
        if (first == null || last == null || !doubt.isEmpty()) {
            return;
        }
        long low = low(next.atNanos);
        long high = high(next.atNanos);
        if (next.low() > high || next.high() < low) {
            doubt = "the bench's clock jumped by at least " + Math.max(next.low() - high, low - next.high()) / 1_000
                    + " us";
            return;
        }
        rate(first, next)
                .filter(rate -> rate.lowPpm > ratePpmMax || rate.highPpm < -ratePpmMax)
                .ifPresent(rate -> doubt = "the bench's clock runs off by " + Math.round(rate.lowPpm) + " to "
                        + Math.round(rate.highPpm) + " ppm; bench and host together may by " + ratePpmMax + " ppm");
    }

    private static Optional<Rate> rate(Exchange from, Exchange to) {
        long shortest = to.sentNanos - from.atNanos;
        long longest = to.atNanos - from.sentNanos;
        if (shortest < RATE_NANOS_MIN) {
            return Optional.empty();
        }
        double bench = to.benchNanos - from.benchNanos;
        return Optional.of(new Rate((bench / longest - 1) * 1e6, (bench / shortest - 1) * 1e6));
    }

    private long low(long nowNanos) {
        long low = Long.MIN_VALUE;
        for (Exchange one : recent) {
            low = Math.max(low, one.low() - widening(one, nowNanos));
        }
        return low;
    }

    private long high(long nowNanos) {
        long high = Long.MAX_VALUE;
        for (Exchange one : recent) {
            high = Math.min(high, one.high() + widening(one, nowNanos));
        }
        return high;
    }

    private long widening(Exchange one, long nowNanos) {
        return (long) Math.ceil(ratePpmMax * 1e-6 * Math.abs(nowNanos - one.atNanos));
    }
}
