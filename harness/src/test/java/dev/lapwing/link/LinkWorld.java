package dev.lapwing.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.Carrier.Weather;
import dev.lapwing.link.FakePoints.Drive;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.bench.BenchSession;
import dev.lapwing.link.host.HostEvent;
import dev.lapwing.link.host.HostSession;
import dev.lapwing.link.host.HostSettings;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;

/**
 * Host and bench in fake time, 1 ms at a time, the bench's clock ahead of or behind the host's and of another rate.
 * What must never happen is checked at each tick, from what crosses the channel and what the terminals do, not from
 * what the two sides think of themselves.
 */
final class LinkWorld {
    private static final String SESSION = "5be1c07d";
    private static final String STRANGER = "0badcafe";
    /** Said of a repeat, they leave open what became of the command when it came first. */
    private static final Set<String> LEAVE_OPEN = Set.of("stale", "no-session", "busy");

    private static final long TICK_NANOS = 1_000_000;

    private final SplittableRandom random;
    private final Carrier<HostMessage> toBench;
    private final Carrier<BenchMessage> toHost;
    private final FakePoints points = new FakePoints();
    private BenchSession bench;
    private final HostSession host;
    private final double benchRate;
    private final boolean troubled;
    private final int queue;
    private final Set<Long> reported = new HashSet<>();
    private final Set<Long> lost = new HashSet<>();
    private final Map<Integer, HostMessage.Set> ordered = new HashMap<>();
    private final Map<Integer, HostMessage.Set> byId = new HashMap<>();
    private final Map<Integer, Long> drivenAtUs = new HashMap<>();
    private final BeatOracle oracle = new BeatOracle(SESSION);

    private long benchStartUs;
    private long nanos;
    private int boots;
    private long firstN = -1;
    private long nextN;
    private int lastValue;
    private boolean wasArmed;
    private boolean finished;
    private boolean ended;
    private long orderNanos;

    /** @param troubled whether the bench may reboot and another host may meddle */
    LinkWorld(SplittableRandom random, Carrier<HostMessage> toBench, Carrier<BenchMessage> toHost, boolean troubled) {
        this.random = random;
        this.toBench = toBench;
        this.toHost = toHost;
        this.troubled = troubled;
        this.benchRate = 1 + (random.nextDouble() - 0.5) * 80e-6;
        this.benchStartUs = random.nextLong(1_000_000_000L);
        this.queue = 1 + random.nextInt(6);
        points.setDelayUs = random.nextInt(200);
        this.bench = boot();
        this.host = new HostSession(new HostSettings(SESSION, "test", 10), this::hear, 0);
    }

    void weather(Weather there, Weather back) {
        toBench.weather(there);
        toHost.weather(back);
    }

    void runFor(int ms) {
        for (int i = 0; i < ms; i++) {
            nanos += TICK_NANOS;
            tick();
        }
    }

    /** At most so long, and until the session is over and the bench is safe. */
    void runUntilOver(int ms) {
        for (int i = 0; i < ms && !(host.over() && benchSafe()); i++) {
            nanos += TICK_NANOS;
            tick();
        }
    }

    void finish() {
        host.finish(nanos);
    }

    boolean finished() {
        return finished;
    }

    boolean over() {
        return host.over();
    }

    boolean wasArmed() {
        return wasArmed;
    }

    boolean benchSafe() {
        return !bench.armed() && points.allSafe();
    }

    int driven() {
        return drivenAtUs.size();
    }

    int lostNumbers() {
        return lost.size();
    }

    /**
     * Everything that the bench numbered in this session has come, or was told to be lost, if the session went well.
     */
    void checkNothingLostUnseen() {
        if (!finished) {
            return;
        }
        for (long n = firstN; n < nextN; n++) {
            assertTrue(reported.contains(n) || lost.contains(n), "number " + n + " is missing and nobody knows");
            assertFalse(reported.contains(n) && lost.contains(n), "number " + n + " came and is called lost");
        }
    }

    private BenchSession boot() {
        BenchCard card = FakePoints.card(queue, 300, true);
        String boot = String.format(Locale.ROOT, "%08x", ++boots);
        BenchCard booted = new BenchCard(1, "bay-2", boot, 50, queue, 300, 4096, true, card.points());
        BenchSession started = new BenchSession(booted, points, LossyLine.BYTES_PER_SECOND, benchUs());
        points.takeDrives();
        return started;
    }

    /** Power lost and back: outputs safe, a new boot, a clock from 0. */
    private void reboot() {
        benchStartUs = -(long) (nanos / 1000 * benchRate);
        bench = boot();
    }

    /** Another host says something, over a way of its own. */
    private void meddle() {
        HostMessage message = switch (random.nextInt(8)) {
            case 0 -> new HostMessage.Hello(STRANGER, 1, 1, "stranger");
            case 1 -> new HostMessage.Safe(STRANGER, 2);
            case 2 -> new HostMessage.Beat(STRANGER, random.nextInt(100), benchUs());
            case 3 -> new HostMessage.Set(STRANGER, 4, "00000001", Map.of("H1", 99), -1, benchUs() + 1_000_000, 0);
            case 4 -> new HostMessage.Stream(STRANGER, 5, "slow", List.of(), 1, 1, 1, false);
            case 5 -> new HostMessage.Arm(STRANGER, 6, "ffffffff", benchUs() + 1_000_000, 100, Map.of());
            default -> new HostMessage.Ping(STRANGER, 7);
        };
        bench.receive(message, benchUs());
        check(benchUs());
    }

    private void tick() {
        if (troubled && random.nextInt(8_000) == 0) {
            reboot();
        }
        if (troubled && random.nextInt(300) == 0) {
            meddle();
        }
        if (random.nextInt(300) == 0) {
            points.put("P1", 900 + random.nextInt(200));
        }
        if (random.nextInt(50) == 0) {
            int level = 1 - points.get("D1");
            points.put("D1", level);
            bench.edge("D1", level == 1, benchUs());
        }
        runBench();
        for (BenchMessage message : toHost.arrived(nanos)) {
            if (message instanceof BenchMessage.Greeting greeting && firstN < 0 && isMine(message)) {
                firstN = greeting.next();
            }
            if (message instanceof BenchMessage.Answer answer && !ended && isMine(message)) {
                nextN = Math.max(nextN, answer.next());
            }
            host.receive(message, nanos);
        }
        host.step(nanos);
        command();
        while (toBench.free(nanos)) {
            Optional<HostMessage> out = host.poll(nanos);
            if (out.isEmpty()) {
                break;
            }
            note(out.get());
            toBench.send(out.get(), nanos);
        }
    }

    private static boolean isMine(BenchMessage message) {
        return message.session().equals(SESSION);
    }

    private void runBench() {
        while (bench.nextDueUs() <= benchUs()) {
            long due = bench.nextDueUs();
            bench.step(due);
            check(due);
        }
        for (HostMessage message : toBench.arrived(nanos)) {
            oracle.arrives(message, benchUs());
            bench.receive(message, benchUs());
            check(benchUs());
        }
        while (toHost.free(nanos)) {
            Optional<BenchMessage> out = bench.poll(benchUs());
            if (out.isEmpty()) {
                break;
            }
            toHost.send(out.get(), nanos);
        }
    }

    /** Nothing is driven late, twice or without being asked for; nothing stays live without fresh beats. */
    private void check(long nowUs) {
        for (Drive drive : points.takeDrives()) {
            Integer value = drive.counts().get("H1");
            HostMessage.Set set = value == null ? null : ordered.get(value);
            if (value == null || value == 0) {
                continue;
            }
            assertTrue(set != null, "H1 driven to " + value + ", which nobody ordered");
            assertEquals(null, drivenAtUs.put(value, drive.atUs()), "H1 driven to " + value + " twice");
            assertTrue(drive.atUs() <= set.untilUs(), "driven after its until");
            assertTrue(!set.timed() || drive.atUs() >= set.atUs(), "driven before its time");
        }
        if (bench.armed()) {
            wasArmed = true;
            oracle.checkArmed(nowUs);
        } else {
            assertTrue(points.allSafe(), "disarmed, and an output is not safe");
        }
    }

    private void note(HostMessage message) {
        if (message instanceof HostMessage.Set set) {
            ordered.put(set.points().get("H1"), set);
            byId.put(set.id(), set);
        }
    }

    /** What the host is told of a set is what has been done, or not done, at the terminals. */
    private void checkTruth(BenchMessage.Answer answer) {
        HostMessage.Set set = byId.get(answer.id());
        if (set == null) {
            return;
        }
        Long drivenUs = drivenAtUs.get(set.points().get("H1"));
        if (answer instanceof BenchMessage.Done done) {
            assertEquals(drivenUs, done.atUs(), "told done, and driven when");
        } else if (answer instanceof BenchMessage.Refused refused && !LEAVE_OPEN.contains(refused.why())) {
            assertEquals(null, drivenUs, "told " + refused.why() + ", and driven");
        }
    }

    /** What a run would do: streams, arming, sets at once and timed, now and then a safe. */
    private void command() {
        if (host.card().isEmpty() || host.over() || nanos < orderNanos) {
            return;
        }
        orderNanos = nanos + random.nextInt(60) * TICK_NANOS;
        if (!host.armed()) {
            if (random.nextInt(6) == 0) {
                host.arm(Map.of("P1", new Limit(100, 4000)), 100 + random.nextInt(100));
                orderNanos = nanos + 200 * TICK_NANOS;
            }
            return;
        }
        switch (random.nextInt(40)) {
            case 0 -> host.safe(nanos);
            case 1 -> host.stream("slow", List.of("P1", "P2"), 20_000, 5, 200, false);
            case 2 -> host.stream("quick", List.of("P1"), 1_000, 50, 100, true);
            default -> set();
        }
    }

    private void set() {
        long now = host.clock().orElseThrow().latestUs(nanos);
        int value = ++lastValue;
        if (random.nextBoolean()) {
            host.set(Map.of("H1", value, "W1", value & 1), HostMessage.Set.ON_RECEIPT, now + 50_000, 0);
        } else {
            long at = now + random.nextInt(300_000);
            host.set(Map.of("H1", value, "W1", value & 1), at, at + 5_000, 0);
        }
    }

    private void hear(HostEvent event) {
        assertFalse(ended, "told after the end: " + event);
        if (event instanceof HostEvent.Reported told) {
            assertTrue(reported.add(told.report().n()), "told twice: " + told);
            assertFalse(lost.contains(told.report().n()), "told though it was given up: " + told);
        } else if (event instanceof HostEvent.Answered told) {
            checkTruth(told.answer());
        } else if (event instanceof HostEvent.Lost told) {
            assertTrue(told.fromUs() <= told.toUs(), told + " runs backwards");
            for (long n = told.fromN(); n <= told.toN(); n++) {
                lost.add(n);
            }
        } else if (event instanceof HostEvent.ClockDoubted doubted) {
            throw new AssertionError(doubted.why());
        } else if (event instanceof HostEvent.Finished) {
            finished = true;
            ended = true;
        } else if (event instanceof HostEvent.Ended) {
            ended = true;
        }
    }

    private long benchUs() {
        return benchStartUs + (long) (nanos / 1000 * benchRate);
    }
}
