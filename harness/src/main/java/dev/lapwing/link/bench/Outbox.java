package dev.lapwing.link.bench;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.BenchMessage.State;
import dev.lapwing.link.Samples;
import java.util.ArrayDeque;
import java.util.Optional;
import java.util.Queue;

/** Numbers what the bench reports and keeps it until it can be sent: answers and events before samples. */
final class Outbox {
    /** Beyond this the line has stood still for long; what is not kept is missed by its number, or asked for again. */
    private static final int EVENTS_MAX = 4096;

    private final Queue<BenchMessage> events = new ArrayDeque<>();
    private final Queue<Samples> samples = new ArrayDeque<>();
    private final Queue<Integer> sampleBytes = new ArrayDeque<>();
    private final long sampleBytesMax;
    private long waitingBytes;
    private String session = "";
    private long next;

    /** @param sampleBytesMax samples waiting, in bytes on the line, beyond which none are added */
    Outbox(long sampleBytesMax) {
        this.sampleBytesMax = sampleBytesMax;
    }

    /** Makes a report when its number is known. */
    interface Numbered {
        Report with(String session, long n);
    }

    String session() {
        return session;
    }

    /** What is numbered from now on belongs to that session. */
    void session(String opened) {
        session = opened;
    }

    long next() {
        return next;
    }

    void answer(Answer answer) {
        if (events.size() < EVENTS_MAX) {
            events.add(answer);
        }
    }

    /** Nothing is numbered before the first session of a boot. */
    void report(Numbered made) {
        if (session.isEmpty()) {
            return;
        }
        Report report = made.with(session, next++);
        if (events.size() < EVENTS_MAX) {
            events.add(report);
        }
    }

    /** @param bytes that it will take on the line, at most */
    void samples(Numbered made, int bytes) {
        samples.add((Samples) made.with(session, next++));
        sampleBytes.add(bytes);
        waitingBytes += bytes;
    }

    /** Whether a state still waits for the line. */
    boolean holdsState() {
        return events.stream().anyMatch(State.class::isInstance);
    }

    /** Whether so many samples wait that the line cannot keep up. */
    boolean full() {
        return waitingBytes >= sampleBytesMax;
    }

    /** The next to be sent; a pong reads the clock only now. */
    Optional<BenchMessage> poll(long nowUs) {
        BenchMessage event = events.poll();
        if (event instanceof Pong pong) {
            return Optional.of(new Pong(pong.session(), pong.id(), pong.next(), nowUs));
        }
        if (event != null) {
            return Optional.of(event);
        }
        Samples waiting = samples.poll();
        if (waiting != null) {
            waitingBytes -= sampleBytes.remove();
        }
        return Optional.ofNullable(waiting);
    }
}
