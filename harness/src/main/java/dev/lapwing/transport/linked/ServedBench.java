package dev.lapwing.transport.linked;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.bench.BenchSession;
import dev.lapwing.link.bench.LivePoints;
import dev.lapwing.time.MonotonicClock;
import java.util.ArrayDeque;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * The bench's own end of a link, in real time: a thread that lets the surroundings of its terminals go on with the
 * clock, takes commands at the instant at which they came, and sends no faster than the line. What is due while the
 * thread did not run is done afterwards, each thing at its own bench time.
 */
public final class ServedBench implements AutoCloseable {
    private static final long LOOK_NANOS_MAX = 5_000_000L;
    /** A line goes on by itself while this thread does not run: so much of it is caught up with at once. */
    private static final long CATCH_UP_NANOS_MAX = 500_000_000L;

    /** A message that keeps the line for so long goes out bit by bit, as all do on a real one. */
    private static final long TRICKLE_NANOS = 100_000_000L;

    private static final int WAITING_MAX = 4096;

    private final ReentrantLock lock = new ReentrantLock();
    private final Condition changed = lock.newCondition();
    private final Deque<Came> waiting = new ArrayDeque<>();
    private final Deque<TimedFault> strikes = new ArrayDeque<>();
    private final BenchCarrier carrier;
    private final PacedClock clock;
    private final MonotonicClock machine;
    private final long bytesPerSecond;
    private final Thread thread = new Thread(this::run, "lapwing served bench");
    private BenchCard card;
    private LivePoints points;
    private BenchSession session;
    private Optional<BenchCarrier.Parcel> onTheLine = Optional.empty();
    private long lineFreeNanos = Long.MIN_VALUE;
    private long cameNanos;
    private long nowUs;
    private boolean closed;
    private volatile boolean armed;
    private volatile Optional<String> ended = Optional.empty();
    private volatile boolean stopIn;
    private boolean stopSeen;

    /** A message and when it was wholly there, in ns of the machine's clock. */
    private record Came(HostMessage message, long atNanos) {}

    /**
     * A bench that was just switched on.
     *
     * @param speed how much faster than real time it goes; the line keeps its own pace
     */
    public ServedBench(BenchCard card, LivePoints points, BenchCarrier carrier, double speed, MonotonicClock machine) {
        this(card, points, carrier, speed, machine, List.of());
    }

    /** @param faults of the bench itself, which strike at their moments; those of a line are its carrier's */
    public ServedBench(
            BenchCard card,
            LivePoints points,
            BenchCarrier carrier,
            double speed,
            MonotonicClock machine,
            List<TimedFault> faults) {
        this.card = card;
        this.points = new DeadInputs(points, faults);
        faults.stream()
                .filter(timed ->
                        timed.fault() instanceof BenchFault.Reset || timed.fault() instanceof BenchFault.PowerLoss)
                .sorted(Comparator.comparingLong(TimedFault::atNanos))
                .forEach(strikes::add);
        this.carrier = carrier;
        this.machine = machine;
        this.clock = new PacedClock(machine, speed);
        this.nowUs = points.us(0);
        this.cameNanos = machine.nanos();
        this.bytesPerSecond =
                carrier.bytesPerSecond() == 0 ? 0 : Math.max(1, Math.round(carrier.bytesPerSecond() / speed));
        this.session = new BenchSession(card, this.points, bytesPerSecond, nowUs);
        thread.setDaemon(true);
    }

    public void start() {
        carrier.listen(new Ears());
        thread.start();
    }

    /** Bench time since it was switched on, in ns; goes on through a reset. */
    public MonotonicClock clock() {
        return clock;
    }

    /** Whether its outputs are live. For any thread. */
    public boolean armed() {
        return armed;
    }

    /** Why nobody can reach it any more; empty while it is served, and when it was closed. For any thread. */
    public Optional<String> ended() {
        return ended;
    }

    /** Presses the stop button, or lets it out. For any thread. */
    public void stopButton(boolean in) {
        stopIn = in;
        lock.lock();
        try {
            changed.signal();
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
            thread.join(1_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void run() {
        try {
            while (true) {
                long nowNanos = machine.nanos();
                if (powerLost(clock.at(nowNanos))) {
                    return;
                }
                for (Optional<Came> next = take(nowNanos); next.isPresent(); next = take(nowNanos)) {
                    passUntil(points.us(clock.at(next.get().atNanos)));
                    session.receive(next.get().message, nowUs);
                }
                passUntil(points.us(clock.at(nowNanos)));
                if (stopSeen != stopIn) {
                    stopSeen = stopIn;
                    session.stopButton(stopSeen, nowUs);
                }
                session.badLines(carrier.badPieces());
                armed = session.armed();
                send(nowNanos);
                if (!awaitNext()) {
                    return;
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            goDark();
        }
    }

    /** Lets the faults of the bench strike whose moment came; true if it must end. */
    private boolean powerLost(long nanos) {
        while (!strikes.isEmpty() && strikes.peek().atNanos() <= nanos) {
            TimedFault strike = strikes.remove();
            passUntil(Math.max(nowUs, Math.min(points.us(strike.atNanos()), points.us(nanos))));
            if (strike.fault() instanceof BenchFault.PowerLoss) {
                return true;
            }
            startAnew();
        }
        return false;
    }

    private void startAnew() {
        long boot = new SplittableRandom(Long.parseLong(card.boot(), 16)).nextLong();
        card = new BenchCard(
                card.link(),
                card.name(),
                String.format(Locale.ROOT, "%08x", (int) boot),
                card.clockPpm(),
                card.queue(),
                card.maxBeatMs(),
                card.maxLine(),
                card.dense(),
                card.points());
        points = new SinceBoot(points, nowUs);
        nowUs = 0;
        session = new BenchSession(card, points, bytesPerSecond, nowUs);
        onTheLine = Optional.empty();
        carrier.startedAnew(card);
    }

    /** Without power every output falls to its safe value, and nothing is heard any more. */
    private void goDark() {
        Map<String, Integer> safe = new HashMap<>();
        card.points().stream()
                .filter(point -> point.kind().output())
                .forEach(point -> safe.put(point.name(), point.safe()));
        points.drive(safe, nowUs);
        armed = false;
        carrier.close();
    }

    private Optional<Came> take(long nowNanos) {
        lock.lock();
        try {
            Came first = waiting.peek();
            return first != null && first.atNanos <= nowNanos ? Optional.of(waiting.remove()) : Optional.empty();
        } finally {
            lock.unlock();
        }
    }

    private void passUntil(long us) {
        while (session.nextDueUs() <= us) {
            nowUs = Math.max(nowUs, session.nextDueUs());
            points.passUntil(nowUs, session::edge);
            session.step(nowUs);
        }
        nowUs = Math.max(nowUs, us);
        points.passUntil(nowUs, session::edge);
    }

    /** A message leaves the session when the line is free, and arrives when its last byte does. */
    private void send(long nowNanos) {
        while (lineFreeNanos <= nowNanos) {
            // A line that was busy goes on where it ended, though this thread looks at it a little later.
            long beginNanos = onTheLine.isPresent() ? Math.max(lineFreeNanos, nowNanos - CATCH_UP_NANOS_MAX) : nowNanos;
            onTheLine.ifPresent(BenchCarrier.Parcel::send);
            onTheLine = session.poll(nowUs).map(carrier::parcel);
            if (onTheLine.isEmpty()) {
                return;
            }
            lineFreeNanos = beginNanos + onTheLine.get().lineNanos();
        }
        trickle(nowNanos);
    }

    /** A host at a slow line sees that something comes long before it is whole. */
    private void trickle(long nowNanos) {
        onTheLine.filter(parcel -> parcel.lineNanos() >= TRICKLE_NANOS).ifPresent(parcel -> {
            double left = (double) (lineFreeNanos - nowNanos) / parcel.lineNanos();
            parcel.goesOut(Math.max(0, Math.min(1, 1 - left)));
        });
    }

    private boolean awaitNext() throws InterruptedException {
        long nowNanos = machine.nanos();
        long dueUs = Math.min(session.nextDueUs(), nowUs + 1_000_000);
        long left = Math.min(LOOK_NANOS_MAX, clock.onTheMachine(points.nanos(dueUs) - clock.nanos()));
        if (onTheLine.isPresent()) {
            left = Math.min(left, lineFreeNanos - nowNanos);
        }
        lock.lock();
        try {
            Came first = waiting.peek();
            left = first == null ? left : Math.min(left, first.atNanos - nowNanos);
            if (left > 0 && !closed) {
                changed.awaitNanos(left);
            }
            return !closed;
        } finally {
            lock.unlock();
        }
    }

    private final class Ears implements BenchCarrier.Hearing {
        @Override
        public void came(HostMessage message, long lineNanos) {
            lock.lock();
            try {
                cameNanos = Math.max(cameNanos, machine.nanos()) + lineNanos;
                if (waiting.size() < WAITING_MAX) {
                    waiting.add(new Came(message, cameNanos));
                }
                changed.signal();
            } finally {
                lock.unlock();
            }
        }

        @Override
        public void ended(String why) {
            lock.lock();
            try {
                ended = Optional.of(why);
                closed = true;
                changed.signal();
            } finally {
                lock.unlock();
            }
        }
    }
}
