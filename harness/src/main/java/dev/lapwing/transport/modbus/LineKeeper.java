package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Polled;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.RegisterBlock;
import dev.lapwing.time.MonotonicClock;
import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.stream.Collectors;

/**
 * Polls the modules and drives their outputs on a thread of its own. Whoever has the lock has the line; an output is
 * driven only by who has it and finds the bench armed, so that nothing is driven after it was made safe.
 */
final class LineKeeper {
    /** Without a sign of the runner's progress for so long, outputs are made safe, in µs. */
    private static final long PAUSE_US_MAX = 1_000_000;
    /** How often the runner's progress is looked at, in µs. */
    private static final long LOOK_US = 50_000;

    /** Of whatever must be answered before it goes on. */
    private static final int TRIES = 3;

    private final LinkChoice.Modbus link;
    private final ModbusLine line;
    private final MonotonicClock clock;
    private final long openedNanos;
    private final Map<String, Register> registers = new HashMap<>();
    private final ReentrantLock lock = new ReentrantLock(true);
    private final Condition changed = lock.newCondition();
    private final Thread thread = new Thread(this::run, "lapwing modbus line");
    private final Orders orders;
    private final Poller poller;
    private final LookBack lookBack;
    private final Queued queued;
    private State state = State.IDLE;
    private boolean closed;
    private boolean lineClosed;
    private volatile Optional<String> broken = Optional.empty();
    /** Somebody waits for the line to make outputs safe: no further poll comes before that. */
    private volatile boolean safeWanted;

    private volatile long progressUs;

    /** What is done with the line. */
    enum State {
        /** Nothing. */
        IDLE,
        /** Everything is polled, nothing is driven. */
        WATCHED,
        /** Everything is polled, and outputs are driven. */
        ARMED
    }

    LineKeeper(BenchFile file, LinkChoice.Modbus link, ModbusLine line, Queued queued, MonotonicClock clock) {
        this.link = link;
        this.line = line;
        this.queued = queued;
        this.clock = clock;
        this.openedNanos = clock.nanos();
        this.orders = new Orders(file);
        this.poller = new Poller(file, link, line, queued, this::nowUs);
        this.lookBack = new LookBack(link, line, this::nowUs);
        link.registers().forEach(register -> registers.put(register.point(), register));
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    long nowUs() {
        return (clock.nanos() - openedNanos) / 1_000;
    }

    /** The runner is alive and at work. */
    void progress() {
        progressUs = nowUs();
    }

    /** Makes the outputs safe and sees that everything answers; from then on it is polled and reported. */
    void begin(State as) throws IOException {
        lock.lock();
        try {
            if (broken.isPresent()) {
                throw new IOException(broken.get());
            }
            patiently(() -> write(orders.safe()));
            orders.forget();
            patiently(poller::begin);
            if (as == State.ARMED) {
                patiently(() -> lookBack.begin(orders.safe()));
            }
            queued.clear();
            progress();
            state = as;
            changed.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /** Nothing is timed yet: a first answer may be late. */
    private static void patiently(Asking asking) throws IOException {
        for (int i = 1; i < TRIES; i++) {
            try {
                asking.ask();
                return;
            } catch (IOException e) {
                // Asked again; the last answer counts.
            }
        }
        asking.ask();
    }

    private interface Asking {
        void ask() throws IOException;
    }

    /** @return false where nothing is ever driven; a bench that became safe tells so by itself */
    boolean order(Orders.Order order) {
        lock.lock();
        try {
            if (state == State.WATCHED) {
                return false;
            }
            orders.add(order);
            changed.signalAll();
            return true;
        } finally {
            lock.unlock();
        }
    }

    /** Whether a poll is still to tell of that bench time, or an earlier one; none is once the outputs are safe. */
    boolean awaits(long us) {
        try {
            // Whoever waits longer would not show progress meanwhile; a poll is under way then.
            if (!lock.tryLock(LOOK_US, TimeUnit.MICROSECONDS)) {
                return true;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return true;
        }
        try {
            return state != State.IDLE && poller.awaits(us);
        } finally {
            lock.unlock();
        }
    }

    /** Every output to its safe count, tried again while a module does not answer. */
    void safe(String why) {
        safeWanted = true;
        lock.lock();
        try {
            safeWanted = false;
            orders.forget();
            if (lineClosed) {
                return;
            }
            boolean was = state == State.ARMED;
            state = State.IDLE;
            List<RegisterBlock> left = writeSafe();
            List<String> other = was && left.isEmpty() ? notAsDriven() : List.of();
            long atUs = nowUs();
            if (!left.isEmpty()) {
                queued.add(listener -> listener.fault(atUs, "", notSafe(left)));
            } else if (!other.isEmpty()) {
                queued.add(listener -> listener.fault(
                        atUs,
                        "",
                        "outputs were made safe, but " + String.join("; ", other) + "; see by hand that they are"));
            } else if (was) {
                queued.add(listener -> listener.safe(atUs, why));
            }
        } finally {
            lock.unlock();
        }
    }

    private static String notSafe(List<RegisterBlock> left) {
        String modules = left.stream()
                .map(RegisterBlock::module)
                .distinct()
                .map(String::valueOf)
                .collect(Collectors.joining(" and module "));
        return "module " + modules + " did not answer when outputs were made safe; see by hand that they are";
    }

    /**
     * What did not answer. Each module is tried before any is tried again, so that one that is gone keeps no other
     * waiting.
     */
    private List<RegisterBlock> writeSafe() {
        List<RegisterBlock> left = blocks(orders.safe());
        for (int i = 0; i < TRIES && !left.isEmpty(); i++) {
            left = left.stream().filter(block -> !wroteSafe(block)).toList();
        }
        return left;
    }

    private boolean wroteSafe(RegisterBlock block) {
        try {
            line.write(block, values(block, orders.safe()));
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /** An answer to an order says that it came, not that it was done. */
    private List<String> notAsDriven() {
        try {
            patiently(() -> lookBack.begin(orders.safe()));
            return List.of();
        } catch (IOException e) {
            return List.of(String.valueOf(e.getMessage()));
        }
    }

    private void write(Map<String, Integer> counts) throws IOException {
        for (RegisterBlock block : blocks(counts)) {
            line.write(block, values(block, counts));
        }
    }

    private List<RegisterBlock> blocks(Map<String, Integer> counts) {
        return RegisterBlock.of(counts.keySet().stream().map(registers::get).toList());
    }

    private static int[] values(RegisterBlock block, Map<String, Integer> counts) {
        return block.points().stream().mapToInt(counts::get).toArray();
    }

    /** Why nothing more will come. */
    Optional<String> broken() {
        return broken;
    }

    private void run() {
        long poll = 0;
        lock.lock();
        try {
            while (!closed) {
                lookAtProgress();
                long idleUs = dueUs(poll) - nowUs();
                if (state == State.ARMED && !safeWanted && lookBack.wants(idleUs)) {
                    lookBack();
                } else if (idleUs > 0) {
                    changed.await(Math.min(LOOK_US, idleUs), TimeUnit.MICROSECONDS);
                    continue;
                }
                if (dueUs(poll) <= nowUs() && turn(poll)) {
                    poll = nowUs() / link.pollUs() + 1;
                }
                // Lets in who waits for the line: the lock is fair.
                lock.unlock();
                lock.lock();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (RuntimeException | Error e) {
            // No output may stay driven that nobody looks after any more.
            end("an error of the harness: " + e);
            throw e;
        } finally {
            lock.unlock();
        }
    }

    private long dueUs(long poll) {
        return state == State.IDLE ? Long.MAX_VALUE : Math.min(poll * link.pollUs(), orders.nextUs());
    }

    private void lookAtProgress() {
        if (state == State.ARMED && nowUs() - progressUs > PAUSE_US_MAX) {
            safe("beat-lost");
        }
    }

    /** Drives what is due, and polls if it is time for that; whether it was. */
    private boolean turn(long poll) {
        boolean polls = poll * link.pollUs() <= nowUs();
        try {
            driveDue();
            if (polls) {
                drive(orders.ramped(nowUs()));
                for (Polled each : poller.due(poll)) {
                    lookAtProgress();
                    if (state != State.IDLE && !safeWanted) {
                        if (!poller.poll(each, poll)) {
                            safe("fault");
                        }
                        driveDue();
                    }
                }
            }
        } catch (IOException e) {
            end(e.getMessage());
        }
        return polls;
    }

    /** What a unit did while nobody knows how its inputs were driven says nothing of it. */
    private void lookBack() {
        try {
            Optional<String> other = lookBack.next(orders.driven());
            if (other.isPresent()) {
                long atUs = nowUs();
                poller.lost(lookBack.goodUs(), atUs);
                queued.add(listener -> listener.fault(atUs, "", other.get()));
                safe("fault");
            }
        } catch (IOException e) {
            end(e.getMessage());
        }
    }

    private void driveDue() throws IOException {
        Optional<Orders.Order> due = orders.due(nowUs());
        while (state == State.ARMED && due.isPresent()) {
            drive(due.get());
            due = orders.due(nowUs());
        }
    }

    private void drive(Orders.Order order) throws IOException {
        long sentUs = nowUs();
        Map<String, Integer> begun = orders.begin(order, sentUs);
        write(begun);
        lookBack.drove();
        long doneUs = nowUs();
        long atUs = (sentUs + doneUs) / 2 + link.contactsLateUs(order.counts());
        queued.add(listener -> listener.executed(order.id(), order.atUs(), atUs));
        if (doneUs - sentUs > link.roundTripUs()) {
            // When it was done is known too badly to time anything by it.
            poller.lost(sentUs, doneUs);
        }
    }

    private void drive(Map<String, Integer> counts) throws IOException {
        if (state == State.ARMED && !counts.isEmpty()) {
            write(counts);
            lookBack.drove();
        }
    }

    /** The link is lost: says what is missing, and tries to make safe what still answers. */
    private void end(String why) {
        try {
            poller.lost(poller.silentSinceUs(), nowUs());
            safe("fault");
        } finally {
            broken = Optional.of(why);
            closed = true;
        }
    }

    void close() {
        lock.lock();
        try {
            closed = true;
            changed.signalAll();
        } finally {
            lock.unlock();
        }
        try {
            thread.join(2_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        lock.lock();
        try {
            lineClosed = true;
            line.close();
        } finally {
            lock.unlock();
        }
    }
}
