package dev.lapwing.transport.linked;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.bench.ForwardingLivePoints;
import dev.lapwing.link.bench.LivePoints;
import dev.lapwing.time.MonotonicClock;
import java.util.HashMap;
import java.util.Map;

/**
 * The contract's rules of what is live, watched at the terminals and at the line of a served bench, apart from the code
 * that it judges: while any output is not at its safe value, the last fresh beat came no longer ago than was asked for,
 * and nobody has told the bench safe since it was armed. In the bench's own time: however late a busy machine looks.
 */
public final class WatchedTerminals implements ForwardingLivePoints {
    private static final long SAFE_WITHIN_NANOS = 5_000_000L;
    private static final long NEVER = Long.MAX_VALUE / 2;

    private final LivePoints points;
    private final Map<String, Integer> live = new HashMap<>();
    private final Map<String, Integer> safe = new HashMap<>();
    private MonotonicClock clock = () -> 0;
    private String boot;
    /** When that boot began at the latest, in ns since the bench was switched on. */
    private volatile long bootNanos;

    private long limitNanos;
    private volatile long aliveNanos = Long.MIN_VALUE / 2;
    /** When it was told safe, in ns since the bench was switched on; far away if it was armed since. */
    private volatile long toldSafeNanos = NEVER;

    private volatile String whySafe = "";
    private volatile String unsafe = "";
    private volatile boolean allSafe = true;
    private volatile boolean heard;

    public WatchedTerminals(LivePoints points, BenchCard card) {
        this.points = points;
        boot = card.boot();
        card.points().stream()
                .filter(point -> point.kind().output())
                .forEach(point -> safe.put(point.name(), point.safe()));
    }

    /** Before anything is heard: the bench's own clock, in ns since it was switched on. */
    public void follow(MonotonicClock bench) {
        clock = bench;
    }

    /** A bench that started anew says so, and what its new clock shows. */
    private void said(BenchMessage message) {
        if (message instanceof BenchMessage.Greeting greeting) {
            bootNanos = greeting.card().boot().equals(boot) ? bootNanos : Long.MAX_VALUE;
            boot = greeting.card().boot();
            bootNanos = Math.min(bootNanos, clock.nanos() - points.nanos(greeting.nowUs()));
        } else if (message instanceof BenchMessage.Pong pong) {
            bootNanos = Math.min(bootNanos, clock.nanos() - points.nanos(pong.nowUs()));
        } else if (message instanceof BenchMessage.Safe safe) {
            whySafe = safe.why();
        }
    }

    /** Empty, or how it was broken. */
    public String unsafe() {
        return unsafe;
    }

    /** Whether every output is at its safe value. */
    public boolean allSafe() {
        return allSafe;
    }

    /** Why the bench said last that it made itself safe; empty if it never did. */
    public String whySafe() {
        return whySafe;
    }

    /** Whether any host has said anything. */
    public boolean heard() {
        return heard;
    }

    private void check(long us) {
        long nanos = points.nanos(us);
        if (!allSafe && nanos - aliveNanos > limitNanos + SAFE_WITHIN_NANOS) {
            unsafe = "outputs live " + (nanos - aliveNanos) / 1_000_000 + " ms after the last fresh beat, limit "
                    + limitNanos / 1_000_000 + " ms: " + live;
        } else if (!allSafe && nanos - toldSafeNanos > SAFE_WITHIN_NANOS) {
            unsafe = "outputs live " + (nanos - toldSafeNanos) / 1_000_000 + " ms after it was told safe: " + live;
        }
    }

    /** When the bench heard last that its host is alive, given when it did before that message. */
    private long alive(HostMessage message, long fromNanos, long beforeNanos) {
        if (message instanceof HostMessage.Arm arm) {
            limitNanos = Math.max(limitNanos, arm.beatMs() * 1_000_000L);
            return clock.nanos();
        }
        boolean fresh = message instanceof HostMessage.Beat beat
                && beat.seenUs() >= points.us(fromNanos - bootNanos) - limitNanos / 1_000
                && (bootNanos > 0 || beat.seenUs() <= points.us(clock.nanos()));
        return fresh ? clock.nanos() : beforeNanos;
    }

    /** Hosts and strangers speak on threads of their own. */
    private synchronized void heard(HostMessage message, long fromNanos, long aliveBeforeNanos) {
        aliveNanos = alive(message, fromNanos, aliveBeforeNanos);
        toldSafeNanos = toldSafe(message);
    }

    private long toldSafe(HostMessage message) {
        if (message instanceof HostMessage.Arm) {
            return NEVER;
        }
        return message instanceof HostMessage.Safe ? Math.min(toldSafeNanos, clock.nanos()) : toldSafeNanos;
    }

    /** The same carrier, listened to; while a message is handed over it counts as the latest sign of life. */
    public BenchCarrier watched(BenchCarrier carrier) {
        return new ForwardingCarrier() {
            @Override
            public BenchCarrier to() {
                return carrier;
            }

            @Override
            public void listen(Hearing hearing) {
                carrier.listen(watched(hearing));
            }

            @Override
            public Parcel parcel(BenchMessage message) {
                said(message);
                return carrier.parcel(message);
            }
        };
    }

    private BenchCarrier.Hearing watched(BenchCarrier.Hearing hearing) {
        return new BenchCarrier.Hearing() {
            @Override
            public void came(HostMessage message, long lineNanos) {
                heard = true;
                long from = clock.nanos();
                long before = aliveNanos;
                aliveNanos = NEVER;
                hearing.came(message, lineNanos);
                heard(message, from, before);
            }

            @Override
            public void ended(String why) {
                hearing.ended(why);
            }
        };
    }

    @Override
    public LivePoints to() {
        return points;
    }

    @Override
    public long drive(Map<String, Integer> counts, long nowUs) {
        live.putAll(counts);
        allSafe = live.entrySet().stream().allMatch(entry -> entry.getValue().equals(safe.get(entry.getKey())));
        return points.drive(counts, nowUs);
    }

    @Override
    public void passUntil(long us, Edges edges) {
        check(us);
        points.passUntil(us, edges);
    }
}
