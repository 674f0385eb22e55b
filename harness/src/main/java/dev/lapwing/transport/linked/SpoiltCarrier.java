package dev.lapwing.transport.linked;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.time.MonotonicClock;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/** What carries whole messages, with faults in both directions; a thread of its own hands on what came late. */
public final class SpoiltCarrier implements ForwardingCarrier {
    private static final long LOOK_NANOS_MAX = 50_000_000L;

    private final BenchCarrier carrier;
    private final PacedClock clock;
    private final SpoiltWay<Runnable> in;
    private final SpoiltWay<Runnable> out;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition changed = lock.newCondition();
    private final Thread thread = new Thread(this::run, "lapwing spoilt messages");
    private boolean closed;

    private SpoiltCarrier(BenchCarrier carrier, List<TimedFault> faults, long seed, PacedClock clock) {
        SplittableRandom random = new SplittableRandom(seed);
        this.carrier = carrier;
        this.clock = clock;
        this.in = new SpoiltWay<>(faults, random.split());
        this.out = new SpoiltWay<>(faults, random.split());
        thread.setDaemon(true);
    }

    /**
     * The carrier with those of the faults that meet messages; the carrier itself if none does.
     *
     * @param seed  draws which messages they meet
     * @param speed how much faster than real time the bench goes
     */
    public static BenchCarrier of(
            BenchCarrier carrier, List<TimedFault> faults, long seed, double speed, MonotonicClock machine) {
        List<TimedFault> ofMessages = faults.stream()
                .filter(timed -> timed.fault() instanceof BenchFault.OfMessages)
                .toList();
        return ofMessages.isEmpty()
                ? carrier
                : new SpoiltCarrier(carrier, ofMessages, seed, new PacedClock(machine, speed));
    }

    @Override
    public BenchCarrier to() {
        return carrier;
    }

    @Override
    public void listen(Hearing hearing) {
        thread.start();
        carrier.listen(new Hearing() {
            @Override
            public void came(HostMessage message, long lineNanos) {
                put(in, () -> hearing.came(message, lineNanos));
            }

            @Override
            public void ended(String why) {
                hearing.ended(why);
            }
        });
    }

    @Override
    public Parcel parcel(BenchMessage message) {
        Parcel parcel = carrier.parcel(message);
        return new Parcel() {
            @Override
            public long lineNanos() {
                return parcel.lineNanos();
            }

            @Override
            public void goesOut(double share) {
                // A message is there or not.
            }

            @Override
            public void send() {
                put(out, parcel::send);
            }
        };
    }

    private void put(SpoiltWay<Runnable> way, Runnable passes) {
        lock.lock();
        try {
            way.put(passes, clock.nanos());
            changed.signal();
        } finally {
            lock.unlock();
        }
    }

    private void run() {
        try {
            while (awaitDue()) {
                long nowNanos = clock.nanos();
                pass(in, nowNanos);
                pass(out, nowNanos);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void pass(SpoiltWay<Runnable> way, long nowNanos) {
        for (Optional<Runnable> due = way.due(nowNanos); due.isPresent(); due = way.due(nowNanos)) {
            due.get().run();
        }
    }

    /** False once it is closed. */
    private boolean awaitDue() throws InterruptedException {
        lock.lock();
        try {
            long left = Math.min(in.nextNanos(), out.nextNanos()) - clock.nanos();
            if (left > 0 && !closed) {
                changed.awaitNanos(Math.min(LOOK_NANOS_MAX, clock.onTheMachine(left)));
            }
            return !closed;
        } finally {
            lock.unlock();
        }
    }

    @Override
    public void close() {
        lock.lock();
        try {
            closed = true;
            changed.signal();
        } finally {
            lock.unlock();
        }
        carrier.close();
        try {
            if (Thread.currentThread() != thread) {
                thread.join(1_000);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
