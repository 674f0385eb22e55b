package dev.lapwing.link.host;

import static dev.lapwing.link.host.HostRig.MINE;
import static dev.lapwing.link.host.HostRig.MS;
import static dev.lapwing.link.host.HostRig.only;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How a host arms, keeps the bench armed, and makes it safe. */
class HostArmingTest {
    private final HostRig rig = new HostRig();
    private final HostSession host = rig.host;

    @Test
    void beforeArmingTwentyRoundTripsAreMeasured() {
        rig.greeted();
        host.arm(Map.of("P1", new Limit(1, 2)), 100);
        rig.poll();
        assertTrue(rig.orders().isEmpty());
        rig.pass(100);
        assertEquals(20, host.roundTripsNanos().size());
        Arm arm = rig.arm();
        assertEquals(100, arm.beatMs());
        assertEquals(rig.card.boot(), arm.boot());
        assertTrue(arm.untilUs() > rig.benchUs() + 1_000_000 && arm.untilUs() < rig.benchUs() + 2_000_000);
    }

    @Test
    void theLimitIsThreeTimesTheWorstRoundTrip() {
        HostRig slow = slowPongs(60);
        assertEquals(181, slow.arm().beatMs());
    }

    @Test
    void aLinkTooSlowForTheBenchIsNotArmed() {
        HostRig slow = slowPongs(120);
        assertEquals(List.of(), only(Arm.class, slow.said));
        assertEquals(1, only(HostEvent.Withdrawn.class, slow.events).size());
        assertTrue(only(HostEvent.Withdrawn.class, slow.events).get(0).why().contains("a round trip took 120.0 ms"));
    }

    @Test
    void oneSlowRoundTripOnlyDelaysTheArming() {
        rig.greeted();
        rig.pongs = false;
        host.arm(Map.of(), 100);
        rig.poll();
        List<Ping> slow = only(Ping.class, rig.said);
        rig.pass(190);
        slow.forEach(ping -> rig.hear(new Pong(MINE, ping.id(), rig.next, rig.benchUs())));
        rig.pongs = true;
        rig.pass(1_000);
        assertEquals(List.of(), only(HostEvent.Withdrawn.class, rig.events));
        assertEquals(100, rig.arm().beatMs());
    }

    @Test
    void aChangeOfStreamsMakesRoundTripsCountAnew() {
        rig.greeted();
        host.arm(Map.of(), 100);
        rig.pass(100);
        assertEquals(20, host.roundTripsNanos().size());
        int id = host.stream("a", List.of("P1"), 1_000, 10, 100, false);
        rig.hear(new Done(MINE, rig.arm().id(), rig.next, rig.benchUs()));
        rig.done(id);
        assertTrue(host.roundTripsNanos().size() <= 1);
    }

    @Test
    void theHeartBeatsEveryThirdOfTheLimitWithAPingAndWhatWasSeen() {
        rig.armed();
        rig.pass(300);
        List<Beat> beats = only(Beat.class, rig.said);
        assertEquals(3, beats.size());
        assertEquals(3, only(Ping.class, rig.said).size());
        assertTrue(beats.get(1).k() > beats.get(0).k());
        assertTrue(beats.get(2).seenUs() >= rig.benchUs() - 201_000, "seen by the pong before it");
    }

    @Test
    void aBenchServedFasterIsKeptAliveAtTheHostsPace() {
        HostRig fast = new HostRig(FakePoints.card(8, 3_000, true), 10).greeted();
        fast.host.arm(Map.of(), 3_000);
        fast.pass(100);
        assertEquals(3_000, fast.arm().beatMs(), "of its own time, 300 ms of the host's");
        fast.said.clear();
        fast.pass(300);
        assertEquals(3, only(Beat.class, fast.said).size());
        assertEquals("", fast.host.clock().orElseThrow().doubt());
        assertEquals(fast.benchUs(), fast.host.clock().orElseThrow().earliestUs(fast.nanos), 100);
    }

    @Test
    void theHeartBeatsFromTheMomentThatArmIsSent() {
        rig.greeted();
        host.arm(Map.of(), 300);
        rig.pass(100);
        assertTrue(only(Beat.class, rig.said).size() >= 1);
    }

    @Test
    void withoutPollingTheHeartStops() {
        rig.armed();
        for (int i = 0; i < 300; i++) {
            rig.nanos += MS;
            host.step(rig.nanos);
        }
        assertEquals(0, only(Beat.class, rig.said).size());
    }

    @ParameterizedTest
    @CsvSource({"safe", "state", "refused"})
    void theHeartStopsWhenTheBenchIsNotArmedAnyMore(String how) {
        rig.armed();
        switch (how) {
            case "safe" -> rig.hear(new BenchMessage.Safe(MINE, rig.next++, rig.benchUs(), "limit", ""));
            case "state" -> rig.report(false);
            default -> {
                host.safe(rig.nanos);
                rig.poll();
            }
        }
        rig.said.clear();
        rig.pass(150);
        assertEquals(List.of(), only(Beat.class, rig.said));
        assertEquals(how.equals("refused"), host.armed(), "armed until the bench says otherwise");
    }

    @Test
    void anOldStateDoesNotStopTheHeart() {
        rig.greeted();
        long old = rig.next++;
        int id = host.arm(Map.of(), 300);
        rig.pass(100);
        rig.hear(new Done(MINE, id, rig.next, rig.benchUs()));
        rig.hear(rig.state(old, false));
        rig.said.clear();
        rig.pass(110);
        assertEquals(1, only(Beat.class, rig.said).size());
    }

    @Test
    void aDoneIsNotTakenForBeingArmed() {
        rig.greeted();
        int id = host.arm(Map.of(), 300);
        rig.pass(100);
        rig.hear(new Done(MINE, id, rig.next, rig.benchUs()));
        assertFalse(host.armed());
        rig.report(true);
        assertTrue(host.armed());
    }

    @Test
    void aSafeTakesBackWhatWouldDrive() {
        rig.armed();
        int flying = host.set(Map.of("W1", 1), HostMessage.Set.ON_RECEIPT, rig.benchUs() + 1_000, 0);
        int waiting = host.set(Map.of("W1", 0), HostMessage.Set.ON_RECEIPT, rig.benchUs() + 1_000, 0);
        rig.poll();
        rig.said.clear();
        int safe = host.safe(rig.nanos);
        assertEquals(safe, host.safe(rig.nanos), "one safe at a time");
        rig.pass(500);
        assertEquals(List.of(safe, safe, safe), rig.takeIds(), "no set is repeated behind it");
        assertEquals(
                List.of(flying, waiting),
                only(HostEvent.Withdrawn.class, rig.events).stream()
                        .map(HostEvent.Withdrawn::id)
                        .toList());
    }

    @Test
    void aBenchThatIsArmedThoughNobodyWantsItIsMadeSafe() {
        rig.armed();
        int id = host.safe(rig.nanos);
        rig.poll();
        rig.hear(new Done(MINE, id, rig.next, rig.benchUs()));
        rig.report(false);
        rig.said.clear();
        rig.report(true);
        assertEquals(1, only(Safe.class, rig.said).size(), "a ghost of the arm has come through");
    }

    @Test
    void aStateFromBeforeTheSafeIsNoReasonForAnother() {
        rig.armed();
        int id = host.safe(rig.nanos);
        rig.poll();
        long before = rig.next++;
        rig.hear(new Done(MINE, id, rig.next, rig.benchUs()));
        rig.said.clear();
        rig.hear(rig.state(before, true));
        assertEquals(0, only(Safe.class, rig.said).size());
    }

    /** Greeted, then every pong that many ms late, until the session has decided upon an arm. */
    private static HostRig slowPongs(int ms) {
        HostRig slow = new HostRig().greeted();
        slow.pongs = false;
        slow.host.arm(Map.of(), 100);
        for (int i = 0; i < 70; i++) {
            slow.poll();
            List<Ping> pings = only(Ping.class, slow.said);
            slow.said.removeAll(pings);
            slow.pass(ms);
            pings.forEach(ping -> slow.hear(new Pong(MINE, ping.id(), slow.next, slow.benchUs())));
            slow.pass(2);
        }
        return slow;
    }
}
