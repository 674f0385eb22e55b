package dev.lapwing.link.bench;

import dev.lapwing.bench.PointKind;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.Wire;
import java.util.Map;
import java.util.Set;

/** What an arm and a set must pass, in the contract's order: the first check that fails is the answer. */
final class OrderChecks {
    static final String TESTING = "a self-test runs";

    private static final long UNTIL_US_MAX = 2_000_000;
    private static final long AHEAD_US_MAX = 60_000_000;

    private final BenchCard card;
    private final BenchPoints points;

    OrderChecks(BenchCard card, BenchPoints points) {
        this.card = card;
        this.points = points;
    }

    /** How the bench is when the command is checked. */
    record Now(boolean testing, boolean armed, boolean stop, Set<PointFault> faults, long us) {}

    void arm(Arm arm, Now now) throws Refusing {
        refuseIf(!arm.boot().equals(card.boot()), Refusal.STALE, "another boot");
        refuseIf(now.testing, Refusal.BUSY, TESTING);
        refuseIf(now.armed, Refusal.ARMED, "");
        refuseIf(now.stop, Refusal.STOP_BUTTON, "");
        for (PointFault fault : now.faults) {
            boolean bars = fault.bars(arm.limits().containsKey(fault.point()));
            refuseIf(bars, Refusal.FAULT, (fault.point() + " " + fault.why()).strip());
        }
        checkUntil(arm.untilUs(), now.us, now.us);
        for (String name : arm.limits().keySet()) {
            refuseIf(known(name).kind() != PointKind.ANALOG_IN, Refusal.WRONG_KIND, name);
        }
        boolean beatFits = arm.beatMs() >= Wire.BEAT_MS_MIN && arm.beatMs() <= card.maxBeatMs();
        refuseIf(!beatFits, Refusal.OUT_OF_RANGE, "beat-ms");
        for (Map.Entry<String, Limit> entry : arm.limits().entrySet()) {
            refuseIf(!canTrip(known(entry.getKey()), entry.getValue()), Refusal.OUT_OF_RANGE, entry.getKey());
        }
        for (Map.Entry<String, Limit> entry : arm.limits().entrySet()) {
            boolean inside = ArmedWatch.inside(points, entry.getKey(), entry.getValue(), now.us);
            refuseIf(!inside, Refusal.LIMIT, entry.getKey());
        }
    }

    void set(HostMessage.Set set, Now now) throws Refusing {
        refuseIf(!set.boot().equals(card.boot()), Refusal.STALE, "another boot");
        refuseIf(now.testing, Refusal.BUSY, TESTING);
        refuseIf(!now.armed, Refusal.NOT_ARMED, "");
        if (set.timed()) {
            refuseIf(set.atUs() < now.us, Refusal.LATE, "");
            refuseIf(set.atUs() - now.us > AHEAD_US_MAX, Refusal.TOO_FAR, "at-us");
        }
        checkUntil(set.untilUs(), set.timed() ? set.atUs() : now.us, now.us);
        for (String name : set.points().keySet()) {
            refuseIf(!known(name).kind().output(), Refusal.WRONG_KIND, name);
        }
        for (Map.Entry<String, Integer> entry : set.points().entrySet()) {
            refuseIf(!known(entry.getKey()).takes(entry.getValue()), Refusal.OUT_OF_RANGE, entry.getKey());
        }
    }

    static void refuseIf(boolean so, Refusal word, String what) throws Refusing {
        if (so) {
            throw new Refusing(word, what);
        }
    }

    /** A limit at the end of a point's range could never be passed. */
    private static boolean canTrip(LinkPoint point, Limit limit) {
        boolean low = limit.low() == Limit.NO_LOW || limit.low() > point.min() && limit.low() <= point.max();
        boolean high = limit.high() == Limit.NO_HIGH || limit.high() < point.max() && limit.high() >= point.min();
        return low && high;
    }

    private LinkPoint known(String name) throws Refusing {
        return card.point(name).orElseThrow(() -> new Refusing(Refusal.UNKNOWN_POINT, name));
    }

    private static void checkUntil(long untilUs, long fromUs, long nowUs) throws Refusing {
        refuseIf(untilUs < nowUs, Refusal.LATE, "");
        refuseIf(untilUs - fromUs > UNTIL_US_MAX, Refusal.TOO_FAR, "until-us");
    }
}
