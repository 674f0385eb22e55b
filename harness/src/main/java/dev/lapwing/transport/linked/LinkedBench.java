package dev.lapwing.transport.linked;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.Stream;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.Wire;
import dev.lapwing.link.host.BenchClock;
import dev.lapwing.link.host.HostEvent;
import dev.lapwing.link.host.HostSession;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.ToIntFunction;

/**
 * A bench at the other end of a link, as the runner sees it. The link is kept by threads of its own; what they tell is
 * handed on by {@link #advance}, on the runner's thread. The heart beats only while the runner goes on: an armed bench
 * whose runner stands still for a second makes itself safe.
 */
public final class LinkedBench implements Bench {
    /** Patience with the answer to a command given and waited for at once, in ns. */
    private static final long ANSWER_NANOS = 8_000_000_000L;

    /** The same with arming, which goes out once enough round trips are short enough, or is taken back when none is. */
    private static final long ARMING_NANOS = 20_000_000_000L;

    private static final long SLICE_NANOS = 20_000_000L;
    /** A timed set that comes so late is not done at all, in µs. */
    private static final long SET_LATE_US = 100_000;
    /** Time that close waits for a session to end as it should, in ns. */
    private static final long CLOSE_NANOS = 2_000_000_000L;
    /** A message holds samples of so long a time of the host's clock, in µs: what a waiting step may lag behind. */
    private static final long BATCH_US = 20_000;
    /** Most samples in a message. */
    private static final int BATCH_MAX = 256;
    /** A set that came too late is asked for anew, so often at most. */
    private static final int SET_TIMES_MAX = 5;
    /** No link lags longer than so many µs and is still of use. */
    private static final long LAG_US_MAX = 2_000_000;

    private final BenchFile file;
    private final int beatMs;
    private final double speed;
    private final MonotonicClock clock;
    private final SessionKeeper keeper;
    private final BenchCard card;
    private final Identity identity;
    private final Reports reports;
    /** Told by the link while an answer was waited for, to be handed on at the next advance. */
    private final Deque<HostEvent> held = new ArrayDeque<>();

    private final Map<Integer, Asked> asked = new HashMap<>();
    private long nowUs;
    private volatile boolean safeAsked;

    /** A set that the bench has not executed yet, and how often it was asked for. */
    private record Asked(long id, Map<String, Integer> counts, long dueUs, long overUs, int times) {
        Asked again(long atUs) {
            return new Asked(id, counts, atUs, overUs, times + 1);
        }
    }

    private LinkedBench(
            BenchFile file, int beatMs, double speed, MonotonicClock clock, SessionKeeper keeper, BenchCard card) {
        this.file = file;
        this.beatMs = (int) Math.round(beatMs * speed);
        this.speed = speed;
        this.clock = clock;
        this.keeper = keeper;
        this.card = card;
        this.reports = new Reports(file);
        this.identity = new Identity(card.name(), card.boot(), card.computed());
    }

    /**
     * Greets the bench at the other end.
     *
     * @param beatMs  least heartbeat limit in ms of the host's clock
     * @param carrier closed with the bench, and when this fails
     * @throws BenchFailure if nobody answers, the answer is a refusal, or what answers is not what the file describes
     */
    public static LinkedBench open(
            BenchFile file, int beatMs, HostSettings settings, HostCarrier carrier, MonotonicClock clock)
            throws BenchFailure {
        SessionKeeper keeper = new SessionKeeper(settings, carrier, clock);
        keeper.start();
        try {
            BenchCard card = greeted(keeper, carrier, clock);
            CardCheck.of(file, card);
            return new LinkedBench(file, beatMs, settings.speed(), clock, keeper, card);
        } catch (BenchFailure e) {
            keeper.close(0);
            throw e;
        }
    }

    private static BenchCard greeted(SessionKeeper keeper, HostCarrier carrier, MonotonicClock clock)
            throws BenchFailure {
        long untilNanos = clock.nanos() + ANSWER_NANOS + carrier.lineNanos(Wire.BENCH_BYTES_MAX);
        while (clock.nanos() < untilNanos) {
            keeper.progress();
            Optional<HostEvent> event = keeper.next(clock.nanos() + SLICE_NANOS);
            if (event.isPresent() && event.get() instanceof HostEvent.Greeted greeted) {
                return greeted.card();
            }
            if (event.isPresent() && event.get() instanceof HostEvent.Ended ended) {
                throw ended.reason() == HostEvent.EndReason.LINK_LOST
                        ? new BenchFailure(carrier.whyNobody())
                        : Failures.ended(ended);
            }
            Failures.throwIf(keeper.broken());
        }
        throw new BenchFailure(carrier.whyNobody());
    }

    @Override
    public Identity identity() {
        return identity;
    }

    @Override
    public long nowUs() {
        long estimate = keeper.asked(session -> {
            BenchClock bench = session.clock().orElseThrow();
            long now = clock.nanos();
            return (bench.earliestUs(now) + bench.latestUs(now)) / 2;
        });
        nowUs = Math.max(nowUs, estimate);
        return nowUs;
    }

    @Override
    public long lagUs() {
        long worst = keeper.with(session -> session.roundTripsNanos().stream()
                .mapToLong(Long::longValue)
                .max()
                .orElse(0));
        double lag = Math.max(Bench.super.lagUs(), 3 * worst / 1e3) * speed;
        return Math.min(LAG_US_MAX, Math.round(lag));
    }

    @Override
    public void arm() throws BenchFailure {
        if (beatMs > card.maxBeatMs()) {
            throw Failures.beat(file, Math.round(beatMs / speed), Math.round(card.maxBeatMs() / speed));
        }
        watch();
        keeper.beating(true);
        reports.armed(answered("arming", ARMING_NANOS, session -> session.arm(limits(), beatMs))
                .next());
    }

    private Map<String, Limit> limits() {
        Map<String, Limit> limits = new TreeMap<>();
        file.limits()
                .forEach(limit -> limits.put(
                        limit.point(),
                        new Limit(
                                limit.lowest().orElse(Limit.NO_LOW),
                                limit.most().orElse(Limit.NO_HIGH))));
        return limits;
    }

    @Override
    public void watch() throws BenchFailure {
        reports.forget(drained());
        safeAsked = false;
        for (Stream stream : file.streams()) {
            long batchUs = Math.round(BATCH_US * speed);
            int batch = (int) Math.max(1, Math.min(BATCH_MAX, batchUs / stream.everyUs()));
            int flushMs = (int) Math.max(1, batchUs / 1_000 + stream.everyUs() / 1_000);
            boolean dense = dense(stream);
            Done done = answered(
                    "stream '" + stream.name() + "'",
                    ANSWER_NANOS,
                    session -> session.stream(stream.name(), stream.points(), stream.everyUs(), batch, flushMs, dense));
            reports.streams(stream, done.id());
        }
    }

    /** Dense where the bench can and the counts fit: a line carries several times as many. */
    private boolean dense(Stream stream) {
        return card.dense()
                && stream.points().stream()
                        .allMatch(name ->
                                card.point(name).filter(LinkPoint::fitsDense).isPresent());
    }

    /** Everything that was told and not handed on yet. */
    private Deque<HostEvent> drained() throws BenchFailure {
        keeper.progress();
        keeper.takeAll(held, 0);
        Deque<HostEvent> old = new ArrayDeque<>(held);
        held.clear();
        Failures.throwIf(keeper.broken());
        return old;
    }

    /** Gives a command and waits for its answer, which must be that it was done. */
    private Done answered(String what, long patienceNanos, ToIntFunction<HostSession> command) throws BenchFailure {
        int id = command(what, command);
        long untilNanos = clock.nanos() + patienceNanos;
        while (clock.nanos() < untilNanos) {
            keeper.progress();
            Optional<HostEvent> event = keeper.next(clock.nanos() + SLICE_NANOS);
            if (event.isEmpty()) {
                Failures.throwIf(keeper.broken());
            } else if (event.get() instanceof HostEvent.Answered answer && answer.id() == id) {
                return done(what, answer.answer());
            } else if (event.get() instanceof HostEvent.Withdrawn withdrawn && withdrawn.id() == id) {
                throw new BenchFailure(what + " was taken back: " + withdrawn.why());
            } else if (event.get() instanceof HostEvent.Ended ended) {
                throw Failures.ended(ended);
            } else {
                held.add(event.get());
            }
        }
        throw Failures.unanswered(what);
    }

    private static Done done(String what, BenchMessage.Answer answer) throws BenchFailure {
        if (answer instanceof Done done) {
            return done;
        }
        throw Failures.refused(what, answer instanceof Refused refused ? refused.why() : "an answer of another kind");
    }

    private int command(String what, ToIntFunction<HostSession> command) throws BenchFailure {
        Failures.throwIf(keeper.broken());
        try {
            return keeper.with(command::applyAsInt);
        } catch (IllegalArgumentException | IllegalStateException e) {
            throw new BenchFailure(what + " cannot be asked for: " + e.getMessage(), e);
        }
    }

    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        keeper.progress();
        ask(new Asked(id, counts, atUs, overUs, 1));
    }

    private void ask(Asked set) throws BenchFailure {
        long untilUs = Math.addExact(set.dueUs, Math.min(LAG_US_MAX, Math.round(SET_LATE_US * speed)));
        int order = command("driving outputs", session -> session.set(set.counts, set.dueUs, untilUs, set.overUs));
        asked.put(order, set);
    }

    @Override
    public void advance(long untilUs, BenchListener listener) throws BenchFailure {
        keeper.progress();
        reports.greet(listener);
        keeper.takeAll(held, held.isEmpty() ? hostNanos(untilUs) : 0);
        if (held.isEmpty()) {
            Failures.throwIf(keeper.broken());
        }
        while (!held.isEmpty()) {
            hear(held.remove(), listener);
        }
    }

    /** Host time at which that bench time is thought to be. */
    private long hostNanos(long us) {
        return clock.nanos() + Math.round(Math.max(0, us - nowUs()) * 1_000 / speed);
    }

    private void hear(HostEvent event, BenchListener listener) throws BenchFailure {
        if (event instanceof HostEvent.Reported reported) {
            reports.tell(reported.report(), listener);
        } else if (event instanceof HostEvent.Lost lost) {
            reports.lost(lost, listener);
        } else if (event instanceof HostEvent.Answered answered) {
            answered(answered.id(), answered.answer(), listener);
        } else if (event instanceof HostEvent.ClockDoubted doubted) {
            listener.fault(nowUs(), "", "clock: " + doubted.why());
        } else if (event instanceof HostEvent.Withdrawn withdrawn && !safeAsked) {
            throw new BenchFailure("a command was taken back: " + withdrawn.why());
        } else if (event instanceof HostEvent.Ended ended) {
            throw Failures.ended(ended);
        }
    }

    private void answered(int order, BenchMessage.Answer answer, BenchListener listener) throws BenchFailure {
        if (answer instanceof Done done) {
            Asked set = asked.remove(order);
            if (set != null && done.atUs() != BenchMessage.NONE) {
                listener.executed(set.id(), set.dueUs(), done.atUs());
            }
        } else if (answer instanceof Refused refused) {
            Optional<Refusal> why = Refusal.of(refused.why());
            Asked set = asked.remove(order);
            if (set == null
                    || safeAsked
                    || reports.toldSafe()
                    || why.filter(Refusal.SAFE::equals).isPresent()) {
                // What ended the arming is the reason, and is told.
                return;
            }
            // Nothing was done, and nothing was asked for after it that could now come before it.
            boolean again = why.filter(Refusal.LATE::equals).isPresent() && asked.isEmpty();
            if (!again || set.times == SET_TIMES_MAX) {
                throw Failures.notDriven(refused.why());
            }
            ask(set.again(nowUs() + 2 * lagUs()));
        }
    }

    @Override
    public boolean awaits(long us) {
        return !held.isEmpty() || keeper.awaits(us);
    }

    @Override
    public void alive() {
        keeper.progress();
    }

    @Override
    public void safe() {
        safeAsked = true;
        keeper.beating(false);
        keeper.with(session -> session.safe(clock.nanos()));
    }

    @Override
    public void close() {
        safe();
        keeper.close(CLOSE_NANOS);
    }
}
