package dev.lapwing.link.host;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Pings under way, when the next is due, and how long the last of them took. */
final class Pings {
    /** So many round trips, with the streams that run, are known before a heartbeat limit is chosen. */
    private static final int TRIPS_MAX = 20;
    /** So many are gathered at once after greeting and after each change of streams, for a narrow clock interval. */
    private static final int TRIPS_SOON = 8;

    private static final int OPEN_MAX = 64;
    private static final long QUIET_NANOS = 1_000_000_000L;
    private static final long UNANSWERED_NANOS = 200_000_000L;
    private static final long BETWEEN_NANOS = 2_000_000L;

    private final Map<Integer, Sent> open = new LinkedHashMap<>();
    private final Deque<Long> trips = new ArrayDeque<>();
    private long countedFromNanos = Long.MIN_VALUE;
    private long dueNanos = Long.MIN_VALUE;
    private int wanted = TRIPS_SOON;
    private boolean arming;

    /**
     * A ping under way.
     *
     * @param nanos  host time at which it was sent
     * @param seenUs greatest bench time that had been seen by then: the answer cannot be of an earlier one
     */
    record Sent(long nanos, long seenUs) {}

    /** The next ping goes out as soon as possible. */
    void hurry() {
        dueNanos = Long.MIN_VALUE;
    }

    boolean due(long nowNanos) {
        return nowNanos >= dueNanos;
    }

    /** @param armWaits whether an arm waits for enough round trips, or for better ones */
    void sent(int id, Sent ping, boolean armWaits) {
        open.put(id, ping);
        if (open.size() > OPEN_MAX) {
            open.remove(open.keySet().iterator().next());
        }
        arming = armWaits;
        wanted = arming ? TRIPS_MAX : TRIPS_SOON;
        dueNanos = ping.nanos + (gathers() ? UNANSWERED_NANOS : QUIET_NANOS);
    }

    boolean isOpen(int id) {
        return open.containsKey(id);
    }

    /** The ping that is answered now; empty if it is none, or answered already. */
    Optional<Sent> answered(int id, long nowNanos) {
        Sent ping = open.remove(id);
        if (ping == null) {
            return Optional.empty();
        }
        if (ping.nanos >= countedFromNanos) {
            trips.addLast(nowNanos - ping.nanos);
        }
        if (trips.size() > TRIPS_MAX) {
            trips.removeFirst();
        }
        if (gathers()) {
            dueNanos = Math.min(dueNanos, nowNanos + BETWEEN_NANOS);
        }
        return Optional.of(ping);
    }

    private boolean gathers() {
        return arming || trips.size() < wanted;
    }

    /** Other streams run: the round trips so far say nothing any more. */
    void forgetTrips(long nowNanos) {
        trips.clear();
        countedFromNanos = nowNanos;
        dueNanos = Math.min(dueNanos, nowNanos + BETWEEN_NANOS);
    }

    boolean enough() {
        return trips.size() == TRIPS_MAX;
    }

    /** The worst of the last round trips, in ns; 0 if there is none. */
    long worstNanos() {
        return trips.stream().mapToLong(Long::longValue).max().orElse(0);
    }

    /** Least heartbeat limit for these round trips, in ms: three times the worst. */
    int beatMsMin() {
        return (int) Math.min(Integer.MAX_VALUE, 3 * worstNanos() / 1_000_000 + 1);
    }

    List<Long> trips() {
        return new ArrayList<>(trips);
    }

    long dueNanos() {
        return dueNanos;
    }
}
