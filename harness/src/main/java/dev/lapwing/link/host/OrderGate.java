package dev.lapwing.link.host;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.CommandWriter;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Ordered;
import dev.lapwing.link.Wire;
import java.util.Optional;

/** When an order may go out, and when its last answer must have come. */
final class OrderGate {
    /** How long an arm may be under way, in µs; the bench allows 2 s from its receipt. */
    private static final long ARM_US = 1_500_000;

    private static final long SELF_TEST_NANOS = 10_000_000_000L;
    /** Round trips that are too long for so much host time in a row stay too long: one slow moment is none. */
    private static final long SLOW_NANOS = 5_000_000_000L;

    private static final long NEVER = Long.MAX_VALUE;

    private final HostSettings settings;
    private final BenchCard card;
    private final BenchClock clock;
    private final Orders orders;
    private final Pings pings;
    private long slowSinceNanos = NEVER;

    OrderGate(HostSettings settings, BenchCard card, BenchClock clock, Orders orders, Pings pings) {
        this.settings = settings;
        this.card = card;
        this.clock = clock;
        this.orders = orders;
        this.pings = pings;
    }

    /** The order, complete; empty while it must wait: for a place in the bench's queue, or for round trips. */
    Optional<Ordered> open(Order order, long nowNanos) {
        if (order instanceof Order.Ready ready) {
            boolean waits = ready.timedSet() && orders.held() >= card.queue();
            return waits ? Optional.empty() : Optional.of(ready.message());
        }
        Order.ToArm toArm = (Order.ToArm) order;
        int beatMs = beatMs(toArm);
        if (!pings.enough() || beatMs > card.maxBeatMs()) {
            return Optional.empty();
        }
        long untilUs = clock.earliestUs(nowNanos) + ARM_US;
        return Optional.of(new Arm(settings.session(), toArm.id(), card.boot(), untilUs, beatMs, toArm.limits()));
    }

    /** @throws IllegalArgumentException if the bench does not take a line so long */
    void checkLength(HostMessage message) {
        int bytes = CommandWriter.json(message).length + Wire.LINE_EXTRA_BYTES;
        if (bytes > card.maxLine()) {
            throw new IllegalArgumentException("a command of " + bytes + " bytes; the bench takes " + card.maxLine());
        }
    }

    /** As above, with the longest numbers that it can be completed by. */
    void checkLength(Order.ToArm order) {
        String session = settings.session();
        checkLength(new Arm(session, order.id(), card.boot(), Wire.NUMBER_MAX, card.maxBeatMs(), order.limits()));
    }

    /** Whether an arm waits for more round trips. */
    boolean armWaits() {
        return orders.first().filter(Order.ToArm.class::isInstance).isPresent();
    }

    /** Why the next order will not go out, as far as can be told; empty if it may. */
    Optional<String> hopeless(long nowNanos) {
        boolean slow = pings.enough()
                && orders.first()
                        .filter(order -> order instanceof Order.ToArm toArm && beatMs(toArm) > card.maxBeatMs())
                        .isPresent();
        slowSinceNanos = slow ? Math.min(slowSinceNanos, nowNanos) : NEVER;
        if (!slow || nowNanos - slowSinceNanos < SLOW_NANOS) {
            return Optional.empty();
        }
        slowSinceNanos = NEVER;
        return Optional.of("again and again a round trip took " + pings.worstNanos() / 1_000_000.0
                + " ms; the bench's greatest heartbeat limit, " + card.maxBeatMs()
                + " ms, is less than three of them, or than what was asked for; take a faster line, or"
                + " sample fewer points");
    }

    /** Host time by which the last answer to a queued command must have come, but for its way back. */
    long finallyNanos(Ordered order, long nowNanos) {
        return order instanceof HostMessage.Set set
                ? Math.max(nowNanos, clock.passedNanos(set.atUs(), nowNanos))
                : nowNanos + SELF_TEST_NANOS;
    }

    /** In ms of bench time. */
    private int beatMs(Order.ToArm toArm) {
        return Math.max(toArm.beatMs(), (int) Math.min(Integer.MAX_VALUE, pings.beatMsMin() * settings.speed()));
    }
}
