package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.time.MonotonicClock;
import java.io.IOException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * Polls the modules and drives their outputs on a thread of its own. Whoever has the lock has the line; an output is
 * driven only by who has it and finds the bench armed, so that nothing is driven after it was made safe.
 */
final class LineKeeper {
    /** Without a good answer of something that is polled for so long, the link is lost, in µs. */
    private static final long GONE_US = 1_000_000;
    /** Without a sign of the runner's progress for so long, outputs are made safe, in µs. */
    private static final long PAUSE_US_MAX = 1_000_000;

    private static final int SAFE_TRIES = 3;

    private final LinkChoice.Modbus link;
    private final ModbusLine line;
    private final MonotonicClock clock;
    private final long openedNanos;
    private final List<Polled> polled;
    private final Map<String, Register> registers = new HashMap<>();
    private final Set<String> signed = new HashSet<>();
    private final ReentrantLock lock = new ReentrantLock(true);
    private final Condition changed = lock.newCondition();
    private final Thread thread = new Thread(this::run, "lapwing modbus line");
    private final Orders orders;
    private final Queued queued;
    private final Map<Polled, Answered> last = new HashMap<>();
    private final Map<String, Integer> levels = new HashMap<>();
    private boolean armed;
    private boolean closed;
    private boolean lineClosed;
    private volatile Optional<String> broken = Optional.empty();
    /** Somebody waits for the line to make outputs safe: no further poll comes before that. */
    private volatile boolean safeWanted;

    private volatile long progressUs;

    /** When something was last asked with success, and when the answer was there, in bench µs. */
    private record Answered(long sentUs, long hereUs) {}

    LineKeeper(BenchFile file, LinkChoice.Modbus link, ModbusLine line, Queued queued, MonotonicClock clock) {
        this.link = link;
        this.line = line;
        this.queued = queued;
        this.clock = clock;
        this.openedNanos = clock.nanos();
        this.polled = Polled.of(file, link);
        this.orders = new Orders(file);
        link.registers().forEach(register -> registers.put(register.point(), register));
        file.points().stream().filter(point -> point.min() < 0).forEach(point -> signed.add(point.name()));
        thread.setDaemon(true);
    }

    Orders orders() {
        return orders;
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
    void arm() throws IOException {
        lock.lock();
        try {
            if (broken.isPresent()) {
                throw new IOException(broken.get());
            }
            write(orders.safe());
            orders.forget();
            for (Polled each : polled) {
                for (Block block : each.blocks()) {
                    line.read(block);
                }
            }
            queued.clear();
            last.clear();
            levels.clear();
            progress();
            armed = true;
            changed.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /** Something was ordered. */
    void look() {
        lock.lock();
        try {
            changed.signalAll();
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
            boolean was = armed;
            armed = false;
            boolean done = wroteSafe();
            long atUs = nowUs();
            if (was && done) {
                queued.add(listener -> listener.safe(atUs, why));
            } else if (!done) {
                queued.add(listener -> listener.fault(atUs, "", "outputs did not answer when they were made safe"));
            }
        } finally {
            lock.unlock();
        }
    }

    private boolean wroteSafe() {
        boolean all = true;
        for (Block block :
                Block.of(orders.safe().keySet().stream().map(registers::get).toList())) {
            boolean done = false;
            for (int i = 0; i < SAFE_TRIES && !done; i++) {
                try {
                    line.write(block, values(block, orders.safe()));
                    done = true;
                } catch (IOException e) {
                    // Tried again; the next block's module may well answer.
                    done = false;
                }
            }
            all &= done;
        }
        return all;
    }

    private void write(Map<String, Integer> counts) throws IOException {
        for (Block block : Block.of(counts.keySet().stream().map(registers::get).toList())) {
            line.write(block, values(block, counts));
        }
    }

    private static int[] values(Block block, Map<String, Integer> counts) {
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
                long dueUs = armed ? Math.min(poll * link.pollUs(), orders.nextUs()) : Long.MAX_VALUE;
                long waitUs = Math.min(dueUs - nowUs(), link.pollUs());
                if (waitUs > 0) {
                    changed.awaitNanos(waitUs * 1_000);
                    continue;
                }
                if (turn(poll)) {
                    poll = nowUs() / link.pollUs() + 1;
                }
                // Lets in who waits for the line: the lock is fair.
                lock.unlock();
                lock.lock();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            lock.unlock();
        }
    }

    /** Drives what is due, and polls if it is time for that; whether it was. */
    private boolean turn(long poll) {
        boolean polls = false;
        try {
            driveDue();
            polls = poll * link.pollUs() <= nowUs();
            if (polls) {
                drive(orders.ramped(nowUs()));
                for (Polled each : polled) {
                    if (armed && !safeWanted && poll % each.polls() == 0) {
                        poll(each);
                        driveDue();
                    }
                }
            }
        } catch (IOException e) {
            end(e.getMessage());
        }
        if (armed && nowUs() - progressUs > PAUSE_US_MAX) {
            safe("beat-lost");
        }
        return polls;
    }

    private void driveDue() throws IOException {
        for (Optional<Orders.Order> due = orders.due(nowUs()); armed && due.isPresent(); due = orders.due(nowUs())) {
            Orders.Order order = due.get();
            long sentUs = nowUs();
            write(orders.begin(order, sentUs));
            long doneUs = nowUs();
            queued.add(listener -> listener.executed(order.id(), order.atUs(), (sentUs + doneUs) / 2));
            if (doneUs - sentUs > link.roundTripUs()) {
                // When it was done is known too badly to time anything by it.
                lost(sentUs, doneUs);
            }
        }
    }

    private void drive(Map<String, Integer> counts) throws IOException {
        if (armed && !counts.isEmpty()) {
            write(counts);
        }
    }

    private void poll(Polled each) throws IOException {
        Answered before = last.computeIfAbsent(each, first -> new Answered(nowUs(), nowUs()));
        long sentUs = nowUs();
        Map<String, Integer> read = new HashMap<>();
        try {
            for (Block block : each.blocks()) {
                int[] values = line.read(block);
                for (int i = 0; i < values.length; i++) {
                    String point = block.points().get(i);
                    read.put(point, signed.contains(point) ? (short) values[i] : values[i]);
                }
            }
        } catch (IOException e) {
            // One answer may be spoilt; what was missed shows in the distance to the next good one.
            if (nowUs() - before.hereUs() > GONE_US) {
                throw e;
            }
            return;
        }
        Answered now = new Answered(sentUs, nowUs());
        last.put(each, now);
        boolean held = each.wires() ? edges(each, before, now, read) : samples(each, before, now, read);
        if (!held) {
            safe("fault");
        }
    }

    /** A change was after the last request and before this answer; where that is too long, nothing is claimed. */
    private boolean edges(Polled each, Answered before, Answered now, Map<String, Integer> read) {
        boolean held = true;
        boolean late = now.hereUs() - before.sentUs() > link.arrivalDoubtUs();
        for (String point : each.stream().points()) {
            if (late) {
                held &= queued.add(listener -> listener.lost(point, before.hereUs(), now.hereUs()));
            }
            int level = read.get(point);
            if (!Integer.valueOf(level).equals(levels.put(point, level))) {
                held &= queued.add(listener -> listener.edge(point, now.hereUs(), level == 1));
            }
        }
        return held;
    }

    private boolean samples(Polled each, Answered before, Answered now, Map<String, Integer> read) {
        boolean slow = now.hereUs() - now.sentUs() > link.roundTripUs();
        boolean gap = now.hereUs() - before.hereUs() > each.stream().everyUs() + link.roundTripUs();
        if (slow || gap) {
            return queued.add(listener -> listener.lost(each.stream().name(), before.hereUs(), now.hereUs()));
        }
        int[] counts = each.stream().points().stream().mapToInt(read::get).toArray();
        return queued.add(listener -> listener.samples(new SampleBlock(each.stream(), now.hereUs(), 1, counts)));
    }

    private void lost(long fromUs, long toUs) {
        for (Polled each : polled) {
            List<String> names = each.wires()
                    ? each.stream().points()
                    : List.of(each.stream().name());
            names.forEach(name -> queued.add(listener -> listener.lost(name, fromUs, toUs)));
        }
    }

    /** The link is lost: says what is missing, and tries to make safe what still answers. */
    private void end(String why) {
        long fromUs = last.values().stream().mapToLong(Answered::hereUs).min().orElse(nowUs());
        lost(fromUs, nowUs());
        safe("fault");
        broken = Optional.of(why);
        closed = true;
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
