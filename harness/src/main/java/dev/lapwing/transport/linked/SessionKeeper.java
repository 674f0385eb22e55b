package dev.lapwing.transport.linked;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.Wire;
import dev.lapwing.link.host.HostEvent;
import dev.lapwing.link.host.HostSession;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Function;

/**
 * Keeps a host's session going on a thread of its own, so that pings, beats and repeats go out whatever its user does;
 * beats only as long as the user makes progress. What the session tells waits, bounded, until it is taken. A session
 * whose carrier ended is broken and stays so. All methods are for any thread.
 */
final class SessionKeeper implements HostCarrier.Hearing {
    /** Without a sign of progress for so long, in ns, the heart stops. */
    private static final long PAUSE_NANOS_MAX = 1_000_000_000L;

    private static final long LOOK_NANOS_MIN = 100_000L;
    private static final long LOOK_NANOS_MAX = 50_000_000L;
    private static final int EVENTS_MAX = 50_000;
    /** A user who waits for reports that nobody takes any more is told so, and the heart stops. */
    private static final String ERROR = "an error of the harness: ";

    private final ReentrantLock lock = new ReentrantLock();
    private final Condition changed = lock.newCondition();
    private final Condition told = lock.newCondition();
    private final HostCarrier carrier;
    private final MonotonicClock clock;
    private final HostSession session;
    private final HostMessage parting;
    private final Sender sender;
    private final Thread thread = new Thread(this::run, "lapwing link session");
    private final Deque<HostEvent> events = new ArrayDeque<>();
    private long progressNanos;
    /** When the thread looks again by itself, in ns of its clock. */
    private long looksNanos = Long.MAX_VALUE;

    private boolean beating;
    private boolean closed;
    private Optional<String> broken = Optional.empty();

    SessionKeeper(HostSettings settings, HostCarrier carrier, MonotonicClock clock) {
        this.carrier = carrier;
        this.clock = clock;
        this.session =
                new HostSession(settings.over(carrier.lineNanos(Wire.BENCH_BYTES_MAX)), this::tell, clock.nanos());
        this.parting = new HostMessage.Safe(settings.session(), 0);
        this.sender = new Sender(carrier, clock, this::ended);
        thread.setDaemon(true);
        progressNanos = clock.nanos();
    }

    void start() {
        sender.start();
        carrier.listen(this);
        thread.start();
    }

    /** The user is alive and at work. */
    void progress() {
        lock.lock();
        try {
            boolean stood = !polls();
            progressNanos = clock.nanos();
            if (stood) {
                changed.signal();
            }
        } finally {
            lock.unlock();
        }
    }

    /** Tells the session something. */
    <T> T with(Function<HostSession, T> talk) {
        lock.lock();
        try {
            T answer = talk.apply(session);
            goOn();
            return answer;
        } finally {
            lock.unlock();
        }
    }

    /** Asks the session something, which changes nothing. */
    <T> T asked(Function<HostSession, T> question) {
        lock.lock();
        try {
            return question.apply(session);
        } finally {
            lock.unlock();
        }
    }

    /** From now on the heart may have to beat, and needs progress; or not any more. */
    void beating(boolean now) {
        lock.lock();
        try {
            beating = now;
        } finally {
            lock.unlock();
        }
    }

    /** Whether something about that bench time, in µs, or an earlier one may still be told. */
    boolean awaits(long us) {
        lock.lock();
        try {
            return !events.isEmpty() || session.awaits(us);
        } finally {
            lock.unlock();
        }
    }

    /** What the session tells next, waiting for it up to a time of this clock; empty if there is nothing until then. */
    Optional<HostEvent> next(long untilNanos) {
        lock.lock();
        try {
            while (events.isEmpty() && broken.isEmpty()) {
                long left = untilNanos - clock.nanos();
                if (left <= 0) {
                    return Optional.empty();
                }
                told.awaitNanos(left);
            }
            return Optional.ofNullable(events.poll());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        } finally {
            lock.unlock();
        }
    }

    /** Takes all that the session told, waiting up to a time of this clock where there is nothing. */
    void takeAll(Queue<HostEvent> into, long untilNanos) {
        Optional<HostEvent> first = next(untilNanos);
        lock.lock();
        try {
            first.ifPresent(into::add);
            into.addAll(events);
            events.clear();
        } finally {
            lock.unlock();
        }
    }

    /** Why nothing more will come, once everything has been taken that came before. */
    Optional<String> broken() {
        lock.lock();
        try {
            return events.isEmpty() ? broken : Optional.empty();
        } finally {
            lock.unlock();
        }
    }

    /** Ends the session as it should, within a time of the machine's clock, then lets go of everything. */
    void close(long patienceNanos) {
        long untilNanos = clock.nanos() + patienceNanos;
        lock.lock();
        try {
            session.finish(clock.nanos());
            beating = false;
            changed.signal();
            while (!session.over() && broken.isEmpty()) {
                long left = untilNanos - clock.nanos();
                if (left <= 0) {
                    break;
                }
                events.clear();
                told.awaitNanos(left);
            }
            closed = true;
            changed.signal();
        } catch (InterruptedException e) {
            closed = true;
            Thread.currentThread().interrupt();
        } finally {
            lock.unlock();
        }
        sender.close(Math.max(0, untilNanos - clock.nanos()));
        try {
            thread.join(1_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void came(BenchMessage message) {
        lock.lock();
        try {
            session.receive(message, clock.nanos());
            goOn();
        } catch (RuntimeException | Error e) {
            breakWith(ERROR + e);
            throw e;
        } finally {
            lock.unlock();
        }
    }

    @Override
    public void ended(String why) {
        lock.lock();
        try {
            breakWith(why);
        } finally {
            lock.unlock();
        }
    }

    private void breakWith(String why) {
        if (broken.isEmpty()) {
            broken = Optional.of(why);
            if (beating) {
                // Where the line still takes something, the bench need not wait until it misses the heartbeat.
                sender.send(parting);
            }
            session.cutOff();
            changed.signal();
            told.signalAll();
        }
    }

    /** Called from within the session, under the lock. */
    private void tell(HostEvent event) {
        if (events.size() >= EVENTS_MAX) {
            breakWith("this harness did not keep up with what the bench reported");
            return;
        }
        events.add(event);
        told.signalAll();
    }

    /** Says what is to be said now; wakes the thread only if something is due before it looks again by itself. */
    private void goOn() {
        if (closed || broken.isPresent()) {
            return;
        }
        session.step(clock.nanos());
        if (polls()) {
            send();
        }
        if (clock.nanos() + untilDue() < looksNanos) {
            changed.signal();
        }
    }

    /** Whether its user makes progress, or need not. */
    private boolean polls() {
        return !beating || clock.nanos() - progressNanos <= PAUSE_NANOS_MAX;
    }

    private void run() {
        lock.lock();
        try {
            while (!closed && broken.isEmpty()) {
                session.step(clock.nanos());
                boolean polls = polls();
                if (polls) {
                    send();
                }
                if (sender.stuck()) {
                    breakWith("the line took nothing any more");
                    break;
                }
                long waitNanos = polls && !session.over() ? untilDue() : LOOK_NANOS_MAX;
                looksNanos = clock.nanos() + waitNanos;
                changed.awaitNanos(waitNanos);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (RuntimeException | Error e) {
            breakWith(ERROR + e);
            throw e;
        } finally {
            lock.unlock();
        }
        if (sender.stuck()) {
            carrier.close();
        }
    }

    private long untilDue() {
        long now = clock.nanos();
        long due = session.nextDueNanos();
        long left = due <= now ? 0 : due - now;
        return Math.max(LOOK_NANOS_MIN, Math.min(LOOK_NANOS_MAX, left));
    }

    private void send() {
        Optional<HostMessage> message = session.poll(clock.nanos());
        while (message.isPresent()) {
            if (!sender.send(message.get())) {
                breakWith("the line took nothing any more");
                return;
            }
            message = session.poll(clock.nanos());
        }
        if (session.over()) {
            told.signalAll();
        }
    }
}
