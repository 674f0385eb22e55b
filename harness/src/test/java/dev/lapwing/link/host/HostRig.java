package dev.lapwing.link.host;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.BenchMessage.State;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Command;
import dev.lapwing.link.HostMessage.Ordered;
import dev.lapwing.link.HostMessage.Ping;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A host session, and a bench of which the test says every word itself. Bench time is host time · speed + 1 s. */
final class HostRig {
    static final String MINE = "5be1c07d";
    static final long MS = 1_000_000;

    final List<HostEvent> events = new ArrayList<>();
    final List<HostMessage> said = new ArrayList<>();
    final HostSession host;
    final BenchCard card;
    final double speed;
    long nanos = 5_000 * MS;
    long next;
    /** Pings are answered at once, as long as the link is meant to live. */
    boolean pongs = true;

    HostRig() {
        this(FakePoints.card());
    }

    HostRig(BenchCard card) {
        this(card, 1);
    }

    HostRig(BenchCard card, double speed) {
        this(card, new HostSettings(MINE, "test", 10, speed));
    }

    private HostRig(BenchCard card, HostSettings settings) {
        this.card = card;
        this.speed = settings.speed();
        this.host = new HostSession(settings, events::add, nanos);
    }

    /** Over a line that needs so long for the longest greeting, in ms. */
    static HostRig over(long greetingMs) {
        return new HostRig(FakePoints.card(), new HostSettings(MINE, "test", 10).over(greetingMs * MS));
    }

    HostRig greeted() {
        poll();
        hear(new Greeting(MINE, 1, next, benchUs(), card));
        report(false);
        pass(200);
        said.clear();
        events.clear();
        return this;
    }

    /** Greeted, and armed with a heartbeat limit of 300 ms. */
    HostRig armed() {
        greeted();
        int id = host.arm(Map.of(), 300);
        pass(100);
        hear(new Done(MINE, id, next, benchUs()));
        report(true);
        said.clear();
        events.clear();
        return this;
    }

    long benchUs() {
        return Math.round(nanos * speed / 1_000) + 1_000_000;
    }

    void hear(BenchMessage message) {
        host.receive(message, nanos);
        poll();
    }

    void done(int id) {
        hear(new Done(MINE, id, next, BenchMessage.NONE));
    }

    void refused(int id, String why) {
        hear(new Refused(MINE, id, why));
    }

    /** The bench's state, numbered. */
    void report(boolean armed) {
        hear(state(next++, armed));
    }

    State state(long n, boolean armed) {
        return new State(MINE, n, benchUs(), armed, false, 0, Map.of());
    }

    /** Lets time go on, 1 ms at a time. */
    void pass(int ms) {
        for (int i = 0; i < ms; i++) {
            nanos += MS;
            host.step(nanos);
            poll();
        }
    }

    void poll() {
        for (Optional<HostMessage> out = host.poll(nanos); out.isPresent(); out = host.poll(nanos)) {
            said.add(out.get());
            if (pongs && out.get() instanceof Ping ping) {
                host.receive(new Pong(MINE, ping.id(), next, benchUs()), nanos);
            }
        }
    }

    /** Ids of commands said since this was asked before, pings left out. */
    List<Integer> takeIds() {
        List<Integer> ids = said.stream()
                .filter(message -> message instanceof Command && !(message instanceof Ping))
                .map(message -> ((Command) message).id())
                .toList();
        said.clear();
        return ids;
    }

    List<Ordered> orders() {
        return only(Ordered.class, said);
    }

    Arm arm() {
        return only(Arm.class, said).get(0);
    }

    Optional<HostEvent.Ended> ended() {
        return only(HostEvent.Ended.class, events).stream().findFirst();
    }

    static <E> List<E> only(Class<E> kind, List<?> all) {
        return all.stream().filter(kind::isInstance).map(kind::cast).toList();
    }
}
