package dev.lapwing.transport.linked;

import dev.lapwing.link.HostMessage;
import dev.lapwing.time.MonotonicClock;
import java.io.IOException;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/**
 * The thread that writes to a carrier, so that nobody else waits for a line that does not take anything. Whoever hands
 * messages over watches it: a write that lasts too long is freed by closing the carrier.
 */
final class Sender {
    /** More than a session has to say at once; a line that lets so many pile up stands still. */
    private static final int WAITING_MAX = 512;
    /** A write that takes longer is none; a bench that hears nothing meanwhile makes itself safe long before. */
    private static final long WRITE_NANOS_MAX = 2_000_000_000L;

    private final HostCarrier carrier;
    private final MonotonicClock machine;
    private final Consumer<String> onFailure;
    private final BlockingQueue<HostMessage> waiting = new ArrayBlockingQueue<>(WAITING_MAX);
    private final Thread thread = new Thread(this::run, "lapwing link sender");
    private volatile boolean writing;
    private volatile long sinceNanos;
    private volatile boolean closed;

    Sender(HostCarrier carrier, MonotonicClock machine, Consumer<String> onFailure) {
        this.carrier = carrier;
        this.machine = machine;
        this.onFailure = onFailure;
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    /** False if so much waits that the line must stand still. */
    boolean send(HostMessage message) {
        return waiting.offer(message);
    }

    /** Whether a write lasts too long. */
    boolean stuck() {
        return writing && machine.nanos() - sinceNanos > WRITE_NANOS_MAX;
    }

    /** Lets the last messages out for a moment, then ends. The carrier is closed by whoever calls. */
    void close(long patienceNanos) {
        long untilNanos = machine.nanos() + patienceNanos;
        try {
            while ((writing || !waiting.isEmpty()) && thread.isAlive() && machine.nanos() < untilNanos) {
                TimeUnit.MILLISECONDS.timedJoin(thread, 1);
            }
            closed = true;
            thread.interrupt();
            carrier.close();
            thread.join(1_000);
        } catch (InterruptedException e) {
            closed = true;
            carrier.close();
            Thread.currentThread().interrupt();
        }
    }

    private void run() {
        try {
            while (!closed) {
                HostMessage message = waiting.poll(100, TimeUnit.MILLISECONDS);
                if (message != null) {
                    sinceNanos = machine.nanos();
                    writing = true;
                    carrier.send(message);
                    writing = false;
                }
            }
        } catch (IOException e) {
            writing = false;
            onFailure.accept(e.getMessage());
        } catch (InterruptedException e) {
            // Closed.
            writing = false;
        }
    }
}
