package dev.lapwing.link.host;

import static dev.lapwing.link.host.HostRig.MINE;
import static dev.lapwing.link.host.HostRig.only;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.Stream;
import dev.lapwing.link.Samples;
import dev.lapwing.link.host.HostEvent.EndReason;
import java.util.Collections;
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
    void helloIsRepeatedForSixSecondsAndThenTheLinkIsLost() {
        rig.pass(5_990);
        assertEquals(Collections.nCopies(30, 1), rig.takeIds());
        assertTrue(rig.ended().isEmpty());
        rig.pass(20);
        assertEquals(EndReason.LINK_LOST, rig.ended().orElseThrow().reason());
    }

    @Test
    void overASlowLineTheLongestGreetingIsAwaited() {
        HostRig slow = HostRig.over(17_000);
        slow.pass(22_990);
        assertEquals(Collections.nCopies(30, 1), slow.takeIds());
        assertTrue(slow.ended().isEmpty());
        slow.pass(20);
        assertEquals(EndReason.LINK_LOST, slow.ended().orElseThrow().reason());
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
    void whatIsMissingIsAwaitedUntilItHasComeOrIsTold() {
        rig.greeted();
        rig.next++;
        rig.pass(30);
        long missed = rig.benchUs() - 20_000;
        rig.report(false);
        assertTrue(host.awaits(missed));
        rig.pass(900);
        assertTrue(host.awaits(missed));
        rig.pass(200);
        assertEquals(1, only(HostEvent.Lost.class, rig.events).size());
        assertFalse(host.awaits(missed));
    }

    @Test
    void whatJustHappenedIsAwaitedUntilAReportOrAPongOfLater() {
        rig.greeted();
        rig.pongs = false;
        long happened = rig.benchUs();
        rig.pass(100);
        assertTrue(host.awaits(happened));
        rig.report(false);
        assertFalse(host.awaits(happened));
        rig.pongs = true;
        long later = rig.benchUs();
        rig.pass(1_100);
        assertFalse(host.awaits(later), "nothing was numbered before that pong");
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
        rig.pass(10);
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
    void aStreamThatWasRefusedIsNotWaitedFor() {
        rig.greeted();
        int refused = host.stream("a", List.of("P1"), 1, 10, 100, false);
        rig.poll();
        rig.refused(refused, "unsupported: more than the line carries");
        rig.said.clear();
        host.finish(rig.nanos);
        rig.poll();
        rig.done(only(Safe.class, rig.said).get(0).id());
        assertEquals(List.of(), rig.orders());
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
    void aReportOfATimeStillToComeIsOfAnotherBoot() {
        rig.greeted();
        rig.hear(new Edge(MINE, rig.next, rig.benchUs() + 50_000, "D1", true));
        assertEquals(List.of(), rig.events);
        assertEquals(1, host.leftAside().strangers());
        rig.report(false);
        assertEquals(1, only(HostEvent.Reported.class, rig.events).size());
    }

    @Test
    void aPongOfATimeThatHasBeenMeansThatTheBenchHasRebooted() {
        rig.greeted();
        rig.pongs = false;
        rig.pass(1_100);
        rig.hear(new Pong(MINE, only(Ping.class, rig.said).get(0).id(), 0, 17));
        assertEquals(EndReason.REBOOTED, rig.ended().orElseThrow().reason());
        assertEquals(List.of(), only(HostEvent.ClockDoubted.class, rig.events));
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
        rig.hear(new Samples(MINE, rest, "a", stream, rig.benchUs() - 5_000, 1_000, List.of("P1"), new int[3]));
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
}
