package dev.lapwing.link.host;

import static dev.lapwing.link.host.HostRig.MINE;
import static dev.lapwing.link.host.HostRig.MS;
import static dev.lapwing.link.host.HostRig.only;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.Stream;
import dev.lapwing.link.Samples;
import dev.lapwing.link.host.HostEvent.EndReason;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a host says when, and what it makes of what comes. */
class HostSessionTest {
    private final HostRig rig = new HostRig();
    private final HostSession host = rig.host;

    @Test
    void helloIsRepeatedFiveTimesAndThenTheLinkIsLost() {
        rig.pass(1_190);
        assertEquals(List.of(1, 1, 1, 1, 1, 1), rig.takeIds());
        assertTrue(rig.ended().isEmpty());
        rig.pass(20);
        assertEquals(EndReason.LINK_LOST, rig.ended().orElseThrow().reason());
    }

    @ParameterizedTest
    @CsvSource({"busy", "stale", "wrong-link", "bad-message: 'host' must be text"})
    void aRefusedHelloEndsTheSession(String why) {
        rig.poll();
        rig.refused(1, why);
        assertEquals(new HostEvent.Ended(EndReason.REFUSED, why), rig.ended().orElseThrow());
        rig.pass(3_000);
        assertEquals(List.of(1), rig.takeIds(), "it does not greet again by itself");
    }

    @Test
    void nothingIsOrderedBeforeTheBenchHasAnswered() {
        assertThrows(IllegalStateException.class, () -> host.arm(Map.of(), 300));
        assertThrows(IllegalStateException.class, () -> host.endStream("a"));
    }

    @Test
    void aSafeMayComeBeforeTheBenchHasAnswered() {
        int id = host.safe(rig.nanos);
        rig.poll();
        assertEquals(List.of(id, 1), rig.takeIds());
        rig.done(id);
        assertEquals(1, only(HostEvent.Answered.class, rig.events).size());
    }

    @Test
    void oneOrderAtATimeUntilItsFirstAnswer() {
        rig.greeted();
        int first = host.endStream("a");
        int second = host.endStream("b");
        rig.pass(10);
        assertEquals(List.of(first), rig.takeIds());
        rig.done(first);
        assertEquals(List.of(second), rig.takeIds());
    }

    @Test
    void anOrderIsRepeatedFiveTimesAndThenTheLinkIsLost() {
        rig.greeted();
        int id = host.endStream("a");
        rig.pass(1_150);
        assertEquals(List.of(id, id, id, id, id, id), rig.takeIds());
        rig.pass(60);
        assertEquals(EndReason.LINK_LOST, rig.ended().orElseThrow().reason());
        assertEquals(1, only(Safe.class, rig.said).size(), "a last safe, in case the way there still lives");
    }

    @Test
    void aRepeatedAnswerIsToldOnce() {
        rig.greeted();
        int id = host.endStream("a");
        rig.poll();
        rig.done(id);
        rig.done(id);
        assertEquals(1, only(HostEvent.Answered.class, rig.events).size());
    }

    @Test
    void aTimedSetIsAnsweredTwiceAndRepeatedWhenItsLastAnswerIsOverdue() {
        rig.armed();
        int id = host.set(Map.of("W1", 1), rig.benchUs() + 500_000, rig.benchUs() + 510_000, 0);
        rig.poll();
        rig.said.clear();
        rig.hear(new Queued(MINE, id));
        rig.pass(690);
        assertEquals(List.of(), rig.takeIds());
        rig.pass(20);
        assertEquals(List.of(id), rig.takeIds());
        rig.hear(new Queued(MINE, id));
        rig.hear(new Done(MINE, id, rig.next, rig.benchUs()));
        List<HostEvent.Answered> answers = only(HostEvent.Answered.class, rig.events);
        assertEquals(2, answers.size());
        rig.pass(1_000);
        assertEquals(List.of(), rig.takeIds());
    }

    @Test
    void aLostQueuedIsNotMissed() {
        rig.armed();
        int id = host.set(Map.of("W1", 1), rig.benchUs() + 10_000, rig.benchUs() + 20_000, 0);
        rig.poll();
        rig.hear(new Done(MINE, id, rig.next, rig.benchUs()));
        assertEquals(1, only(HostEvent.Answered.class, rig.events).size());
        rig.said.clear();
        rig.pass(500);
        assertEquals(List.of(), rig.takeIds());
    }

    @Test
    void aBenchOfOnePlaceGetsOneTimedSetAtATime() {
        HostRig one = new HostRig(FakePoints.card(1, 300, true)).armed();
        long at = one.benchUs() + 400_000;
        int first = one.host.set(Map.of("W1", 1), at, at, 0);
        int second = one.host.set(Map.of("W1", 0), at + 300_000, at + 300_000, 0);
        one.poll();
        one.hear(new Queued(MINE, first));
        one.pass(100);
        assertEquals(List.of(first), one.takeIds());
        one.hear(new Done(MINE, first, one.next, one.benchUs()));
        assertEquals(List.of(second), one.takeIds());
    }

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
        assertTrue(only(HostEvent.Withdrawn.class, slow.events).get(0).why().startsWith("a round trip took 120.0 ms"));
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

    @Test
    void aMissingNumberIsLostAfterASecondAndNotBefore() {
        rig.greeted();
        long missing = rig.next;
        rig.next += 2;
        rig.report(false);
        rig.pass(500);
        rig.report(false);
        rig.pass(480);
        assertEquals(List.of(), only(HostEvent.Lost.class, rig.events));
        rig.pass(30);
        List<HostEvent.Lost> lost = only(HostEvent.Lost.class, rig.events);
        assertEquals(1, lost.size());
        assertEquals(missing, lost.get(0).fromN());
        assertEquals(missing + 1, lost.get(0).toN());
        rig.hear(rig.state(missing, true));
        assertEquals(1, host.leftAside().repeated(), "given up is given up");
    }

    @Test
    void aLossAtTheEndIsSeenByTheNextPong() {
        rig.greeted();
        rig.next += 1;
        rig.pass(2_100);
        assertEquals(1, only(HostEvent.Lost.class, rig.events).size());
    }

    @Test
    void aNumberThatComesLateButInTimeIsNoLoss() {
        rig.greeted();
        long late = rig.next++;
        rig.report(false);
        rig.pass(800);
        rig.hear(rig.state(late, false));
        rig.hear(rig.state(late, false));
        rig.pass(1_000);
        assertEquals(List.of(), only(HostEvent.Lost.class, rig.events));
        assertEquals(2, only(HostEvent.Reported.class, rig.events).size());
        assertEquals(1, host.leftAside().repeated());
    }

    @Test
    void whatWasLostLiesInTheTimeThatIsTold() {
        rig.greeted();
        int id = host.stream("a", List.of("P1"), 1_000, 10, 100, false);
        rig.poll();
        rig.done(id);
        long t0 = rig.benchUs();
        rig.hear(new Samples(MINE, rig.next++, "a", id, t0, 1_000, List.of("P1"), new int[10]));
        rig.pass(20);
        rig.next++;
        rig.hear(new Samples(MINE, rig.next++, "a", id, t0 + 20_000, 1_000, List.of("P1"), new int[10]));
        long seen = rig.benchUs();
        rig.pass(1_100);
        HostEvent.Lost lost = only(HostEvent.Lost.class, rig.events).get(0);
        assertTrue(lost.fromUs() <= t0 + 10_000, "the first sample that is missing");
        assertTrue(lost.toUs() >= seen && lost.toUs() < seen + 1_000, "and up to when its successor came");
    }

    @Test
    void strangersAreCountedAndIgnored() {
        rig.greeted();
        rig.hear(new Edge("0badcafe", rig.next, rig.benchUs(), "D1", true));
        rig.hear(new Refused("0badcafe", 1, "stale"));
        assertEquals(List.of(), rig.events);
        assertEquals(2, host.leftAside().strangers());
    }

    @Test
    void noSessionMeansThatTheBenchHasRebooted() {
        rig.greeted();
        rig.refused(77, "no-session");
        assertEquals(EndReason.REBOOTED, rig.ended().orElseThrow().reason());
    }

    @Test
    void anotherBootMeansThatTheBenchHasRebooted() {
        rig.greeted();
        BenchCard card = rig.card;
        BenchCard other = new BenchCard(1, card.name(), "00000001", 50, 8, 300, 4096, true, card.points());
        rig.hear(new Greeting(MINE, 1, 0, 5, other));
        assertEquals(EndReason.REBOOTED, rig.ended().orElseThrow().reason());
    }

    @ParameterizedTest
    @CsvSource({"stale", "busy"})
    void aRefusedPingMeansThatAnotherHostHasTheBench(String why) {
        rig.greeted();
        rig.pongs = false;
        rig.pass(1_100);
        rig.refused(only(Ping.class, rig.said).get(0).id(), why);
        assertEquals(EndReason.TAKEN_OVER, rig.ended().orElseThrow().reason());
        rig.said.clear();
        rig.pass(1_000);
        assertEquals(List.of(), rig.said, "not even a safe: it is the other's bench");
    }

    @Test
    void silenceForThreeSecondsMeansThatTheLinkIsLost() {
        rig.armed();
        rig.pongs = false;
        rig.pass(2_990);
        assertTrue(rig.ended().isEmpty());
        rig.pass(20);
        assertEquals(EndReason.LINK_LOST, rig.ended().orElseThrow().reason());
        assertTrue(host.over());
    }

    @Test
    void whatWasAwaitedIsToldLostBeforeTheEnd() {
        rig.greeted();
        rig.next++;
        rig.report(false);
        rig.refused(77, "no-session");
        assertEquals(1, only(HostEvent.Lost.class, rig.events).size());
        assertTrue(rig.events.get(rig.events.size() - 1) instanceof HostEvent.Ended);
    }

    @Test
    void aRunEndsWithSafeThenStreamsThenAPingThenAllThatIsAwaited() {
        rig.greeted();
        int stream = host.stream("a", List.of("P1"), 1_000, 10, 100, false);
        rig.poll();
        rig.done(stream);
        rig.said.clear();
        host.finish(rig.nanos);
        rig.poll();
        Safe safe = only(Safe.class, rig.said).get(0);
        assertEquals(List.of(), rig.orders());
        rig.pongs = false;
        rig.done(safe.id());
        Stream end = only(Stream.class, rig.said).get(0);
        assertEquals(List.of(), end.points());
        rig.said.clear();
        long rest = rig.next++;
        rig.done(end.id());
        Ping ping = only(Ping.class, rig.said).get(0);
        rig.hear(new Pong(MINE, ping.id(), rig.next, rig.benchUs()));
        assertFalse(host.over(), "a batch is still on its way");
        rig.hear(new Samples(MINE, rest, "a", stream, rig.benchUs(), 1_000, List.of("P1"), new int[3]));
        assertEquals(1, only(HostEvent.Finished.class, rig.events).size());
        assertTrue(host.over());
    }

    @Test
    void aCommandThatTheBenchsLineDoesNotTakeIsRefusedHere() {
        rig.greeted();
        Map<String, Limit> limits = new HashMap<>();
        for (int i = 0; i < 200; i++) {
            limits.put("point-number-" + i, new Limit(1, 2));
        }
        assertThrows(IllegalArgumentException.class, () -> host.arm(limits, 100));
    }

    @Test
    void aWordOfALaterVersionIsPassedOn() {
        rig.greeted();
        int id = host.endStream("a");
        rig.poll();
        rig.refused(id, "out-of-luck: free text");
        assertEquals(1, only(HostEvent.Answered.class, rig.events).size());
    }

    @Test
    void aJumpOfTheBenchsClockIsDoubtedOnce() {
        rig.greeted();
        rig.pongs = false;
        for (int i = 0; i < 3; i++) {
            rig.pass(1_100);
            int id = only(Ping.class, rig.said).get(rig.said.size() - 1).id();
            rig.hear(new Pong(MINE, id, rig.next, rig.benchUs() + 2_000_000));
        }
        assertEquals(1, only(HostEvent.ClockDoubted.class, rig.events).size());
    }

    /** Greeted, then every pong that many ms late, until the session has decided upon an arm. */
    private static HostRig slowPongs(int ms) {
        HostRig slow = new HostRig().greeted();
        slow.pongs = false;
        slow.host.arm(Map.of(), 100);
        for (int i = 0; i < 25; i++) {
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
