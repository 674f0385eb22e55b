package dev.lapwing.link.bench;

import dev.lapwing.bench.PointKind;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.BenchMessage.State;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Command;
import dev.lapwing.link.HostMessage.Hello;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.SelfTest;
import dev.lapwing.link.HostMessage.Unreadable;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.SafeReason;
import dev.lapwing.link.Wire;
import dev.lapwing.link.bench.AnswerMemory.Ending;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a bench does, from one boot to the next: sessions, arming and what ends it, sets, streams, reports. Messages go
 * in by {@link #receive} and out by {@link #poll}; time goes on by {@link #step}, which must be called at each
 * {@link #nextDueUs}. All times are bench time in µs and never fall. For one thread.
 */
public final class BenchSession {
    private static final long STATE_EVERY_US = 1_000_000;

    private final BenchCard card;
    private final BenchPoints points;
    private final Outbox outbox;
    private final SampleStreams streams;
    private final OutputBank outputs;
    private final SetQueue queue;
    private final OrderChecks checks;
    private final Sessions sessions = new Sessions();
    private final AnswerMemory memory = new AnswerMemory();
    private final Map<String, Boolean> levels = new LinkedHashMap<>();
    private final Set<PointFault> faults = new HashSet<>();

    private @Nullable ArmedWatch watch;
    private @Nullable SelfTest selfTest;
    private long selfTestEndUs;
    private long greatestBeat = -1;
    private long stateUs = Long.MAX_VALUE;
    private boolean stop;
    private long badLines;

    /**
     * A bench at boot, its outputs driven safe.
     *
     * @param bytesPerSecond what carries its messages, in bytes/s; 0 if nothing bounds it
     */
    public BenchSession(BenchCard card, BenchPoints points, long bytesPerSecond, long nowUs) {
        LineBudget budget = new LineBudget(bytesPerSecond);
        this.card = card;
        this.points = points;
        this.outbox = new Outbox(budget.waitingBytesMax());
        this.streams = new SampleStreams(card, points, outbox, budget);
        this.outputs = new OutputBank(card, points);
        this.queue = new SetQueue(card.queue());
        this.checks = new OrderChecks(card, points);
        outputs.safe(nowUs);
        card.points().stream()
                .filter(point -> point.kind().digital())
                .forEach(point -> levels.put(point.name(), points.read(point.name(), nowUs) == 1));
    }

    public boolean armed() {
        return watch != null;
    }

    /** When {@link #step} must be called next, in µs of bench time. */
    public long nextDueUs() {
        long due = Math.min(Math.min(stateUs, streams.dueUs()), Math.min(queue.dueUs(), outputs.dueUs()));
        due = watch == null ? due : Math.min(due, watch.dueUs());
        return selfTest == null ? due : Math.min(due, selfTestEndUs);
    }

    /** Does what is due: safety first, then sets, ramps, samples and the regular state. */
    public void step(long nowUs) {
        if (watch != null) {
            watch.look(points, nowUs).ifPresent(why -> disarm(why, "", nowUs));
        }
        for (Optional<HostMessage.Set> due = queue.pollDue(nowUs); due.isPresent(); due = queue.pollDue(nowUs)) {
            executeTimed(due.get(), nowUs);
        }
        outputs.step(nowUs);
        streams.step(nowUs, watch == null ? card.maxBeatMs() : watch.limitMs());
        if (nowUs >= stateUs) {
            reportStateAgain(nowUs);
        }
        if (selfTest != null && nowUs >= selfTestEndUs) {
            endSelfTest(selfTest, nowUs);
        }
    }

    /** The next message to be sent, answers and events before samples; a pong carries {@code nowUs}. */
    public Optional<BenchMessage> poll(long nowUs) {
        return outbox.poll(nowUs);
    }

    /** So many pieces of what came could not be read, since boot. */
    public void badLines(long sinceBoot) {
        badLines = sinceBoot;
    }

    /** A digital input changed, stamped at its first transition. */
    public void edge(String point, boolean level, long atUs) {
        Boolean before = levels.replace(point, level);
        if (before != null && before != level) {
            outbox.report((session, n) -> new Edge(session, n, atUs, point, level));
        }
    }

    /** The stop button went in or out. */
    public void stopButton(boolean in, long nowUs) {
        stop = in;
        if (in && watch != null) {
            disarm(SafeReason.STOP_BUTTON, "", nowUs);
        }
    }

    /** Something began to be wrong with a point, or, if {@code point} is empty, with the bench. */
    public void fault(String point, String why, long nowUs) {
        PointFault fault = new PointFault(point, why);
        if (faults.add(fault)) {
            outbox.report((session, n) -> new Fault(session, n, nowUs, point, why));
        }
        if (watch != null && fault.bars(watch.limits(point))) {
            disarm(SafeReason.FAULT, "", nowUs);
        }
    }

    /** It is well again. */
    public void cleared(String point, String why) {
        faults.remove(new PointFault(point, why));
    }

    /** Takes a host's message. */
    public void receive(HostMessage message, long nowUs) {
        step(nowUs);
        if (message instanceof Safe safe) {
            makeSafe(safe, nowUs);
        } else if (message instanceof Beat beat) {
            beat(beat, nowUs);
        } else {
            command((Command) message, nowUs);
        }
    }

    private void beat(Beat beat, long nowUs) {
        if (sessions.standing(beat.session()) == Sessions.Standing.OWN && beat.k() > greatestBeat) {
            greatestBeat = beat.k();
            if (watch != null) {
                watch.beat(beat.seenUs(), nowUs);
            }
        }
    }

    private void makeSafe(Safe safe, long nowUs) {
        long atUs = watch == null ? outputs.safe(nowUs) : disarm(SafeReason.HOST, safe.session(), nowUs);
        if (selfTest != null) {
            end(selfTest, Ending.refused(Refusal.SAFE.word()));
            selfTest = null;
        }
        if (safe.answerable()) {
            outbox.answer(Ending.done(atUs).answer(safe.session(), safe.id(), outbox.next()));
        }
    }

    private void command(Command command, long nowUs) {
        Optional<Refusal> closed = door(command);
        if (closed.isPresent()) {
            refuse(command, closed.get().word());
        } else if (command instanceof Hello hello) {
            greet(hello, nowUs);
        } else if (command instanceof Ping ping) {
            outbox.answer(new Pong(ping.session(), ping.id(), outbox.next(), nowUs));
        } else if (command instanceof Unreadable unreadable && !unreadable.ordered()) {
            refuse(command, unreadable.why().because(unreadable.what()));
        } else {
            ordered(command, nowUs);
        }
    }

    /** Whether link and session let it in at all. */
    private Optional<Refusal> door(Command command) {
        if (command instanceof Hello hello && hello.link() != Wire.LINK) {
            return Optional.of(Refusal.WRONG_LINK);
        }
        boolean greeting = command instanceof Hello
                || command instanceof Unreadable unreadable && unreadable.m().equals("hello");
        return switch (sessions.standing(command.session())) {
            case NONE -> greeting ? Optional.empty() : Optional.of(Refusal.NO_SESSION);
            case ENDED -> Optional.of(Refusal.STALE);
            case OTHER -> !greeting || watch != null || selfTest != null ? Optional.of(Refusal.BUSY) : Optional.empty();
            case OWN -> greeting && selfTest != null ? Optional.of(Refusal.BUSY) : Optional.empty();
        };
    }

    private void greet(Hello hello, long nowUs) {
        if (sessions.standing(hello.session()) != Sessions.Standing.OWN) {
            streams.endAll();
            memory.forget();
            greatestBeat = -1;
            sessions.open(hello.session());
            outbox.session(hello.session());
        }
        outbox.answer(new Greeting(hello.session(), hello.id(), outbox.next(), nowUs, card));
        reportState(nowUs);
        // Whoever greets has not heard of what is wrong already.
        faults.forEach(
                fault -> outbox.report((session, n) -> new Fault(session, n, nowUs, fault.point(), fault.why())));
    }

    /** A command that is executed once: a repeat is answered from memory. */
    private void ordered(Command command, long nowUs) {
        Optional<BenchMessage.Answer> before = memory.repeat(command.session(), command.id(), outbox.next());
        if (before.isPresent()) {
            outbox.answer(before.get());
            return;
        }
        if (memory.isOld(command.id())) {
            refuse(command, Refusal.STALE.word());
            return;
        }
        memory.begin(command.id());
        try {
            execute(command, nowUs);
        } catch (Refusing refusing) {
            end(command, Ending.refused(refusing.why()));
        }
    }

    private void execute(Command command, long nowUs) throws Refusing {
        if (command instanceof HostMessage.Stream order) {
            OrderChecks.refuseIf(selfTest != null, Refusal.BUSY, OrderChecks.TESTING);
            streams.order(order, nowUs);
            end(command, Ending.done());
        } else if (command instanceof Arm arm) {
            arm(arm, nowUs);
        } else if (command instanceof HostMessage.Set set) {
            set(set, nowUs);
        } else if (command instanceof SelfTest test) {
            beginSelfTest(test, nowUs);
        } else if (command instanceof Unreadable unreadable) {
            throw new Refusing(unreadable.why(), unreadable.what());
        }
    }

    private void arm(Arm arm, long nowUs) throws Refusing {
        checks.arm(arm, now(nowUs));
        long atUs = outputs.safe(nowUs);
        watch = new ArmedWatch(atUs, arm.beatMs(), arm.limits());
        end(arm, Ending.done(atUs));
        reportEdges(atUs, nowUs);
        reportState(nowUs);
    }

    private void set(HostMessage.Set set, long nowUs) throws Refusing {
        checks.set(set, now(nowUs));
        if (!set.timed()) {
            drive(set, nowUs);
            return;
        }
        OrderChecks.refuseIf(queue.full(), Refusal.QUEUE_FULL, "");
        queue.add(set, points.setDelayUs());
        outbox.answer(new Queued(set.session(), set.id()));
    }

    private OrderChecks.Now now(long nowUs) {
        return new OrderChecks.Now(selfTest != null, watch != null, stop, faults, nowUs);
    }

    private void executeTimed(HostMessage.Set set, long nowUs) {
        if (set.untilUs() < nowUs) {
            end(set, Ending.refused(Refusal.LATE.word()));
        } else {
            drive(set, nowUs);
        }
    }

    private void drive(HostMessage.Set set, long nowUs) {
        long atUs = outputs.execute(set, nowUs);
        end(set, Ending.done(atUs));
        reportEdges(atUs, nowUs);
    }

    private void beginSelfTest(SelfTest test, long nowUs) throws Refusing {
        OrderChecks.refuseIf(watch != null, Refusal.ARMED, "");
        OrderChecks.refuseIf(selfTest != null, Refusal.BUSY, OrderChecks.TESTING);
        selfTest = test;
        selfTestEndUs = nowUs + points.selfTestUs();
        outbox.answer(new Queued(test.session(), test.id()));
    }

    private void endSelfTest(SelfTest test, long nowUs) {
        for (String point : points.failedPoints(nowUs)) {
            outbox.report((session, n) -> new Fault(session, n, nowUs, point, "self-test"));
        }
        selfTest = null;
        end(test, Ending.done());
    }

    /** Drives the outputs first, then says so, in the contract's order; the measured instant. */
    private long disarm(SafeReason why, String by, long nowUs) {
        long atUs = outputs.safe(nowUs);
        watch = null;
        outbox.report((session, n) -> new BenchMessage.Safe(session, n, atUs, why.word(), by));
        reportEdges(atUs, nowUs);
        reportState(nowUs);
        queue.drop().forEach(set -> end(set, Ending.refused(Refusal.SAFE.word())));
        return atUs;
    }

    private void end(Command command, Ending ending) {
        memory.end(command.id(), ending);
        outbox.answer(ending.answer(command.session(), command.id(), outbox.next()));
    }

    private void refuse(Command command, String why) {
        outbox.answer(new Refused(command.session(), command.id(), why));
    }

    /** Digital outputs are read back at the pin: one that does not follow shows no edge. */
    private void reportEdges(long atUs, long nowUs) {
        for (LinkPoint point : card.points()) {
            if (point.kind() == PointKind.DIGITAL_OUT) {
                edge(point.name(), points.read(point.name(), nowUs) == 1, atUs);
            }
        }
    }

    /** On a slow line regular states must not pile up before the answers. */
    private void reportStateAgain(long nowUs) {
        if (outbox.holdsState()) {
            stateUs = nowUs + STATE_EVERY_US;
        } else {
            reportState(nowUs);
        }
    }

    private void reportState(long nowUs) {
        stateUs = nowUs + STATE_EVERY_US;
        outbox.report((session, n) -> new State(session, n, nowUs, watch != null, stop, badLines, levels));
    }
}
