package dev.lapwing.link.host;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ordered;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.SelfTest;
import dev.lapwing.link.HostMessage.Stream;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.Wire;
import dev.lapwing.link.host.HostEvent.EndReason;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * One session with a bench, from hello to its end. What came goes in by {@link #receive}; what is to be sent comes out
 * by {@link #poll}, which is called after every other call until it is empty; time goes on by {@link #step}, at each
 * {@link #nextDueNanos} at the latest. The heart beats only while it is polled: who holds the session stops polling
 * when the work that must not stall has stalled. Host times are of one monotonic clock, in ns. For one thread; never
 * blocks.
 */
public final class HostSession {
    private static final long QUIET_NANOS_MAX = 3_000_000_000L;
    private final HostSettings settings;
    private final Consumer<HostEvent> events;
    private final Orders orders = new Orders();
    private final Pings pings = new Pings();
    private final Liveness liveness = new Liveness();
    private final Greeter greeter;
    private final SafeOrder safe = new SafeOrder();
    private final Finish finish = new Finish();

    private @Nullable Known bench;
    private @Nullable Safe parting;
    private int lastId;
    private long heardNanos;
    private boolean doubtTold;
    private boolean over;
    private long strangers;

    /** What there is once the bench has answered. */
    private record Known(BenchView view, OrderGate gate) {}

    /** @param events hears what happens, from within the session's own methods; it may give commands there */
    public HostSession(HostSettings settings, Consumer<HostEvent> events, long nowNanos) {
        this.settings = settings;
        this.events = events;
        this.greeter = new Greeter(++lastId, settings, nowNanos);
        this.heardNanos = nowNanos;
    }

    /** Starts or replaces a stream; the answer's id. See {@link Stream} for the ranges. */
    public int stream(String name, List<String> points, long everyUs, int batch, int flushMs, boolean dense) {
        return add(new Stream(settings.session(), ++lastId, name, points, everyUs, batch, flushMs, dense));
    }

    /** Ends a stream. */
    public int endStream(String name) {
        return stream(name, List.of(), 1, 1, 1, false);
    }

    /** Lets the bench check its points. */
    public int selfTest() {
        return add(new SelfTest(settings.session(), ++lastId));
    }

    /**
     * Makes the outputs live, after as many pings as the choice of the heartbeat limit needs.
     *
     * @param limits    by name of an analogue input
     * @param beatMsMin least heartbeat limit in ms; the slower the link, the greater the one that is asked for
     */
    public int arm(Map<String, Limit> limits, int beatMsMin) {
        Order.ToArm order = new Order.ToArm(++lastId, limits, beatMsMin);
        known().gate.checkLength(order);
        orders.add(order);
        pings.hurry();
        return order.id();
    }

    /** Drives outputs together. See {@link HostMessage.Set} for the arguments. */
    public int set(Map<String, Integer> points, long atUs, long untilUs, long overUs) {
        return add(new HostMessage.Set(
                settings.session(), ++lastId, known().view.card().boot(), points, atUs, untilUs, overUs));
    }

    /**
     * All outputs to their safe values. The heart stops at once, what would drive is taken back, and nothing is driven
     * again until the next {@link #arm}. A session that is over says nothing more.
     */
    public int safe(long nowNanos) {
        if (over) {
            return lastId;
        }
        liveness.unwanted();
        orders.withdrawDriving().forEach(id -> events.accept(new HostEvent.Withdrawn(id, "safe")));
        if (safe.open().isPresent()) {
            return safe.open().get().id();
        }
        safe.ask(new Safe(settings.session(), ++lastId), nowNanos);
        liveness.safeAsked();
        return lastId;
    }

    /** Safe, then the end of all streams, then all that the bench had to say, then {@link HostEvent.Finished}. */
    public void finish(long nowNanos) {
        safe(nowNanos);
        finish.begin();
    }

    /** Nothing will come any more: what is missing is told as lost. */
    public void cutOff() {
        Optional.ofNullable(bench).ifPresent(known -> tellLost(known.view.giveUp()));
    }

    /** Who the bench is; empty before it has answered. */
    public Optional<BenchCard> card() {
        return Optional.ofNullable(bench).map(known -> known.view.card());
    }

    /** The bench's clock; empty before it has answered. */
    public Optional<BenchClock> clock() {
        return Optional.ofNullable(bench).map(known -> known.view.clock());
    }

    /** Whether the bench has said that it is armed, and not since that it is not. */
    public boolean armed() {
        return liveness.armed();
    }

    /** Whether a report about that bench time, in µs, or an earlier one may still come, or be told as lost. */
    public boolean awaits(long us) {
        return !over && bench != null && bench.view.awaits(us);
    }

    /** Whether nothing more will happen. */
    public boolean over() {
        return over;
    }

    /** The last round trips, at most 20, oldest first, in ns. */
    public List<Long> roundTripsNanos() {
        return pings.trips();
    }

    /** What came and was left aside so far. */
    public LeftAside leftAside() {
        return new LeftAside(strangers, bench == null ? 0 : bench.view.repeated());
    }

    /** When {@link #step} must be called next, in ns of host time. */
    public long nextDueNanos() {
        if (over) {
            return Long.MAX_VALUE;
        }
        if (bench == null) {
            return Math.min(greeter.dueNanos(), safe.dueNanos());
        }
        long due = Math.min(heardNanos + QUIET_NANOS_MAX, Math.min(safe.dueNanos(), bench.view.dueNanos()));
        due = Math.min(due, Math.min(liveness.dueNanos(), pings.dueNanos()));
        return Math.min(due, Math.min(orders.dueNanos(), finish.dueNanos()));
    }

    /** The next message to send; empty if there is none now. */
    public Optional<HostMessage> poll(long nowNanos) {
        if (over) {
            Optional<HostMessage> last = Optional.ofNullable(parting);
            parting = null;
            return last;
        }
        Optional<Safe> first = safe.poll(nowNanos);
        if (first.isPresent()) {
            return Optional.of(first.get());
        }
        if (bench == null) {
            return greeter.poll(nowNanos);
        }
        if (liveness.beatDue(nowNanos)) {
            pings.hurry();
            return Optional.of(new Beat(settings.session(), liveness.beat(nowNanos), bench.view.seenUs()));
        }
        Known known = bench;
        Optional<Ordered> order = orders.poll(nowNanos, waiting -> known.gate.open(waiting, nowNanos));
        if (order.isPresent()) {
            sent(order.get(), known, nowNanos);
            return Optional.of(order.get());
        }
        if (pings.due(nowNanos) || finish.pingDue(nowNanos)) {
            Ping ping = new Ping(settings.session(), ++lastId);
            pings.sent(ping.id(), new Pings.Sent(nowNanos, known.view.seenUs()), known.gate.armWaits());
            finish.pinged(nowNanos);
            return Optional.of(ping);
        }
        return Optional.empty();
    }

    /** Lets time go on: gives up what has been waited for too long. */
    public void step(long nowNanos) {
        if (over) {
            return;
        }
        if (greeter.exhausted(nowNanos) && bench == null) {
            end(EndReason.LINK_LOST, "no answer to hello");
        } else if (safe.exhausted(nowNanos)) {
            end(EndReason.LINK_LOST, "no answer to safe");
        } else if (bench != null) {
            step(bench, nowNanos);
        }
    }

    private void step(Known known, long nowNanos) {
        tellLost(known.view.lost(nowNanos));
        known.gate.hopeless(nowNanos).ifPresent(why -> events.accept(new HostEvent.Withdrawn(orders.dropFirst(), why)));
        if (orders.exhausted(nowNanos) || finish.exhausted(nowNanos)) {
            end(EndReason.LINK_LOST, "a command was said six times and not answered");
        } else if (nowNanos - heardNanos >= QUIET_NANOS_MAX) {
            end(EndReason.LINK_LOST, "nothing heard for 3 s");
        } else if (finish.beginsStreams(safe.open().isEmpty())) {
            known.view.streams().forEach(this::endStream);
        } else if (finish.beginsPing(orders.idle(), lastId, nowNanos)) {
            pings.hurry();
        } else if (finish.complete(known.view.nothingAwaited())) {
            over = true;
            events.accept(new HostEvent.Finished());
        }
    }

    /** Takes what came. Messages of other sessions are counted and ignored. */
    public void receive(BenchMessage message, long nowNanos) {
        if (!message.session().equals(settings.session())) {
            strangers++;
            return;
        }
        if (over) {
            return;
        }
        heardNanos = nowNanos;
        if (bench == null) {
            beforeGreeting(message, nowNanos);
            return;
        }
        if (message instanceof Report report) {
            report(report, bench, nowNanos);
        } else {
            answer((Answer) message, bench, nowNanos);
        }
        step(nowNanos);
    }

    private void beforeGreeting(BenchMessage message, long nowNanos) {
        if (message instanceof Greeting greeting && greeter.asked(greeting.id())) {
            greeted(greeting, nowNanos);
        } else if (message instanceof Refused refused && greeter.asked(refused.id())) {
            end(EndReason.REFUSED, refused.why());
        } else if (message instanceof Done done) {
            safeDone(done);
        }
    }

    private void greeted(Greeting greeting, long nowNanos) {
        BenchCard card = greeting.card();
        if (card.link() != Wire.LINK) {
            end(EndReason.REFUSED, "the bench speaks link " + card.link());
            return;
        }
        BenchView view = new BenchView(greeting, settings, greeter.firstNanos(), nowNanos);
        bench = new Known(view, new OrderGate(settings, card, view.clock(), orders, pings));
        events.accept(new HostEvent.Greeted(card));
    }

    private void answer(Answer answer, Known known, long nowNanos) {
        known.view.saw(answer, nowNanos);
        if (answer instanceof Greeting again) {
            if (!again.card().boot().equals(known.view.card().boot())) {
                end(
                        EndReason.REBOOTED,
                        "boot " + again.card().boot() + " after "
                                + known.view.card().boot());
            }
        } else if (answer instanceof Pong pong) {
            pong(pong, known, nowNanos);
        } else if (Refusal.NO_SESSION.is(answer)) {
            end(EndReason.REBOOTED, "the bench knows of no session");
        } else if (pings.isOpen(answer.id()) && (Refusal.STALE.is(answer) || Refusal.BUSY.is(answer))) {
            end(EndReason.TAKEN_OVER, "another host has the bench");
        } else if (!(answer instanceof Done done && safeDone(done))) {
            orders.answered(answer, order -> known.gate.finallyNanos(order, nowNanos))
                    .ifPresent(order -> answered(order, answer, known, nowNanos));
        }
    }

    private void pong(Pong pong, Known known, long nowNanos) {
        Optional<Pings.Sent> ping = pings.answered(pong.id(), nowNanos);
        if (ping.isEmpty()) {
            return;
        }
        if (pong.nowUs() < ping.get().seenUs()) {
            end(EndReason.REBOOTED, "the bench's time fell");
            return;
        }
        known.view.clock().exchange(ping.get().nanos(), nowNanos, pong.nowUs());
        finish.answered(pong.id());
        if (!doubtTold && !known.view.clock().doubt().isEmpty()) {
            doubtTold = true;
            events.accept(new HostEvent.ClockDoubted(known.view.clock().doubt()));
        }
    }

    private boolean safeDone(Done done) {
        if (!safe.answered(done.id())) {
            return false;
        }
        liveness.safeDone(done.next());
        orders.expectAll(heardNanos);
        events.accept(new HostEvent.Answered(done.id(), done));
        return true;
    }

    private void answered(Ordered order, Answer answer, Known known, long nowNanos) {
        if (order instanceof Arm && answer instanceof Done done) {
            liveness.armDone(done.next());
        } else if (order instanceof Arm) {
            liveness.unwanted();
        } else if (order instanceof Stream stream) {
            pings.forgetTrips(nowNanos);
            known.view.answered(stream, answer instanceof Done);
        }
        if (Refusal.STALE.is(answer) || Refusal.BUSY.is(answer)) {
            pings.hurry();
        }
        events.accept(new HostEvent.Answered(answer.id(), answer));
    }

    private void report(Report report, Known known, long nowNanos) {
        if (known.view.isAhead(report, nowNanos)) {
            strangers++;
            return;
        }
        if (!known.view.isNews(report, nowNanos)) {
            known.view.contradicted(report).ifPresent(lost -> {
                events.accept(lost);
                end(EndReason.TWO_VOICES, "two different reports came under the number " + lost.fromN());
            });
            return;
        }
        if (liveness.saw(report) && safe.open().isEmpty()) {
            safe(nowNanos);
        }
        events.accept(new HostEvent.Reported(report));
    }

    private void sent(Ordered order, Known known, long nowNanos) {
        if (order instanceof Arm arm) {
            liveness.armSent(Math.round(arm.beatMs() * 1e6 / settings.speed()), nowNanos);
        } else if (order instanceof Stream stream) {
            known.view.ordered(stream);
        }
    }

    private void tellLost(List<NumberTrack.Gap> gaps) {
        gaps.forEach(gap -> events.accept(new HostEvent.Lost(gap.fromN(), gap.toN(), gap.fromUs(), gap.toUs())));
    }

    private void end(EndReason reason, String why) {
        over = true;
        liveness.unwanted();
        cutOff();
        if (reason != EndReason.REFUSED && reason != EndReason.TAKEN_OVER) {
            parting = new Safe(settings.session(), ++lastId);
        }
        events.accept(new HostEvent.Ended(reason, why));
    }

    private int add(Ordered message) {
        known().gate.checkLength(message);
        orders.add(new Order.Ready(message));
        return message.id();
    }

    private Known known() {
        if (bench == null) {
            throw new IllegalStateException("the bench has not answered yet");
        }
        return bench;
    }
}
