package dev.lapwing.link.bench;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Hello;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.SelfTest;
import dev.lapwing.link.HostMessage.Stream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** A bench session with fake terminals and a clock that a test winds. */
final class BenchRig {
    static final String MINE = "5be1c07d";
    static final String OTHER = "0badcafe";
    static final String BOOT = "90c4a1f3";

    final FakePoints points = new FakePoints();
    final BenchSession bench;
    long nowUs = 1_000_000;
    private int id;
    private long beat;

    BenchRig() {
        this(FakePoints.card(), 0);
    }

    BenchRig(BenchCard card, long bytesPerSecond) {
        bench = new BenchSession(card, points, bytesPerSecond, nowUs);
        points.takeDrives();
    }

    /** Says it now; what the bench has to say since it was asked before. */
    List<BenchMessage> say(HostMessage message) {
        bench.receive(message, nowUs);
        return heard();
    }

    /** Lets time go on, the bench stepped at each of its due times, and the line free at each of them. */
    List<BenchMessage> pass(long us) {
        List<BenchMessage> heard = new ArrayList<>();
        long until = nowUs + us;
        while (bench.nextDueUs() <= until) {
            due();
            heard.addAll(heard());
        }
        nowUs = until;
        bench.step(nowUs);
        heard.addAll(heard());
        return heard;
    }

    /** As {@link #pass}, but the line takes nothing meanwhile. */
    void passUnheard(long us) {
        long until = nowUs + us;
        while (bench.nextDueUs() <= until) {
            due();
        }
        nowUs = until;
    }

    private void due() {
        nowUs = Math.max(nowUs, bench.nextDueUs());
        bench.step(nowUs);
    }

    /** As {@link #pass}, with a fresh beat every 50 ms. */
    List<BenchMessage> waitBeating(long us) {
        List<BenchMessage> heard = new ArrayList<>();
        for (long left = us; left > 0; left -= 50_000) {
            bench.receive(beat(), nowUs);
            heard.addAll(pass(Math.min(50_000, left)));
        }
        return heard;
    }

    List<BenchMessage> heard() {
        List<BenchMessage> heard = new ArrayList<>();
        for (Optional<BenchMessage> out = bench.poll(nowUs); out.isPresent(); out = bench.poll(nowUs)) {
            heard.add(out.get());
        }
        return heard;
    }

    BenchRig greeted() {
        say(hello(MINE));
        return this;
    }

    BenchRig armed() {
        greeted();
        say(arm(Map.of()));
        return this;
    }

    int lastId() {
        return id;
    }

    Hello hello(String session) {
        return new Hello(session, ++id, 1, "test");
    }

    Ping ping(String session) {
        return new Ping(session, ++id);
    }

    SelfTest selfTest(String session) {
        return new SelfTest(session, ++id);
    }

    Stream stream(String session) {
        return new Stream(session, ++id, "slow", List.of("P1"), 50_000, 10, 1000, false);
    }

    Arm arm(Map<String, Limit> limits) {
        return arm(MINE, limits);
    }

    Arm arm(String session, Map<String, Limit> limits) {
        return new Arm(session, ++id, BOOT, nowUs + 1_000_000, 300, limits);
    }

    HostMessage.Set set(String session) {
        return new HostMessage.Set(session, ++id, BOOT, Map.of("W1", 1), HostMessage.Set.ON_RECEIPT, nowUs + 1000, 0);
    }

    HostMessage.Set timed(Map<String, Integer> values, long atUs) {
        return new HostMessage.Set(MINE, ++id, BOOT, values, atUs, atUs + 5_000, 0);
    }

    Beat beat() {
        return beat(MINE);
    }

    Beat beat(String session) {
        return new Beat(session, ++beat, nowUs);
    }

    Safe safe(String session) {
        return new Safe(session, ++id);
    }

    /** How a message was answered, in a word. */
    static String answer(List<BenchMessage> heard) {
        for (BenchMessage one : heard) {
            if (one instanceof Refused refused) {
                return refused.why().split(":")[0];
            }
            if (one instanceof Done) {
                return "done";
            }
            if (one instanceof BenchMessage.Answer) {
                return one.getClass().getSimpleName().toLowerCase(Locale.ROOT);
            }
        }
        return "nothing";
    }

    /** The kinds of what was heard, in order. */
    static List<String> kinds(List<BenchMessage> heard) {
        return heard.stream()
                .map(one -> one.getClass().getSimpleName().toLowerCase(Locale.ROOT))
                .toList();
    }

    static <M> List<M> only(Class<M> kind, List<BenchMessage> heard) {
        return heard.stream().filter(kind::isInstance).map(kind::cast).toList();
    }
}
