package dev.lapwing.link.bench;

import static dev.lapwing.link.bench.BenchRig.answer;
import static dev.lapwing.link.bench.BenchRig.kinds;
import static dev.lapwing.link.bench.BenchRig.only;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.BenchMessage.State;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Hello;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.Unreadable;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.Samples;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Sessions, ids, arming and what ends it. */
class BenchSessionTest {
    private final BenchRig rig = new BenchRig();

    @Test
    void theGreetingsStateHasTheGreetingsNext() {
        List<BenchMessage> heard = rig.say(rig.hello(BenchRig.MINE));
        assertEquals(List.of("greeting", "state"), kinds(heard));
        assertEquals(0, ((Greeting) heard.get(0)).next());
        assertEquals(0, ((State) heard.get(1)).n());
        rig.pass(2_500_000);
        List<BenchMessage> again = rig.say(rig.hello(BenchRig.MINE));
        assertEquals(3, ((Greeting) again.get(0)).next());
        assertEquals(3, ((State) again.get(1)).n());
    }

    @Test
    void nothingIsNumberedBeforeTheFirstSession() {
        rig.bench.edge("D1", true, rig.nowUs);
        rig.bench.fault("P1", "open-loop", rig.nowUs);
        assertEquals(List.of(), rig.pass(3_000_000));
        State state = (State) rig.say(rig.hello(BenchRig.MINE)).get(1);
        assertEquals(0, state.n());
        assertEquals(true, state.digital().get("D1"));
    }

    @Test
    void whatIsWrongAlreadyIsToldToWhoeverGreets() {
        rig.bench.fault("", "supply", rig.nowUs);
        rig.bench.fault("P1", "open-loop", rig.nowUs);
        rig.bench.fault("P2", "open-loop", rig.nowUs);
        rig.bench.cleared("P2", "open-loop");
        List<BenchMessage> heard = rig.say(rig.hello(BenchRig.MINE));
        assertEquals(List.of("greeting", "state", "fault", "fault"), kinds(heard));
        assertEquals(
                List.of(" supply", "P1 open-loop"),
                only(Fault.class, heard).stream()
                        .map(fault -> fault.point() + " " + fault.why())
                        .sorted()
                        .toList());
        assertEquals(List.of("greeting", "state", "fault", "fault"), kinds(rig.say(rig.hello(BenchRig.OTHER))));
    }

    @Test
    void anotherLinkIsRefusedBeforeAnythingElse() {
        rig.armed();
        assertEquals("wrong-link", answer(rig.say(new Hello(BenchRig.OTHER, 1, 2, ""))));
    }

    @Test
    void aTakeoverEndsStreamsAndForgetsIds() {
        rig.greeted();
        rig.say(rig.stream(BenchRig.MINE));
        rig.pass(120_000);
        List<BenchMessage> heard = rig.say(new Hello(BenchRig.OTHER, 1, 1, "second"));
        assertEquals(List.of("greeting", "state", "samples"), kinds(heard));
        assertEquals(BenchRig.MINE, heard.get(2).session());
        assertEquals("stale", answer(rig.say(rig.ping(BenchRig.MINE))));
        assertEquals("stale", answer(rig.say(rig.hello(BenchRig.MINE))));
        assertEquals("done", answer(rig.say(rig.safe(BenchRig.MINE))));
        assertEquals(
                "done", answer(rig.say(new HostMessage.Stream(BenchRig.OTHER, 1, "a", List.of(), 1, 1, 1, false))));
        assertEquals(List.of(), only(Samples.class, rig.pass(2_000_000)));
    }

    @Test
    void sixteenEndedSessionsAreRemembered() {
        for (int i = 0; i <= 17; i++) {
            rig.say(rig.hello(String.format(Locale.ROOT, "%08x", i)));
        }
        assertEquals("stale", answer(rig.say(rig.ping("00000001"))));
        assertEquals("busy", answer(rig.say(rig.ping("00000000"))));
    }

    @Test
    void aRepeatIsAnsweredFromMemoryAndNotExecutedAgain() {
        rig.armed();
        HostMessage.Set set = rig.set(BenchRig.MINE);
        Done first = only(Done.class, rig.say(set)).get(0);
        rig.waitBeating(100_000);
        rig.points.takeDrives();
        Done second = only(Done.class, rig.say(set)).get(0);
        assertEquals(first.atUs(), second.atUs());
        assertEquals(first.next() + 1, second.next());
        assertEquals(List.of(), rig.points.takeDrives());
    }

    @Test
    void anIdForgottenIsStale() {
        rig.greeted();
        HostMessage.Stream first = rig.stream(BenchRig.MINE);
        rig.say(first);
        for (int i = 0; i < 255; i++) {
            rig.say(rig.stream(BenchRig.MINE));
        }
        assertEquals("done", answer(rig.say(first)));
        rig.say(rig.stream(BenchRig.MINE));
        assertEquals("stale", answer(rig.say(first)));
    }

    @Test
    void aPendingSetIsRememberedHoweverManyComeAfterIt() {
        rig.armed();
        HostMessage.Set set = rig.timed(Map.of("W1", 1), rig.nowUs + 200_000);
        rig.say(set);
        for (int i = 0; i < 300; i++) {
            rig.say(rig.stream(BenchRig.MINE));
        }
        assertEquals("queued", answer(rig.say(set)));
        rig.pass(200_000);
        assertEquals("done", answer(rig.say(set)));
    }

    @Test
    void whatCannotBeReadUsesUpItsId() {
        rig.greeted();
        rig.say(new Unreadable(BenchRig.MINE, 50, "set", Refusal.BAD_MESSAGE, "'points' must be an object"));
        assertEquals("stale", answer(rig.say(rig.stream(BenchRig.MINE))));
        List<BenchMessage> again = rig.say(new HostMessage.SelfTest(BenchRig.MINE, 50));
        assertEquals("bad-message: 'points' must be an object", ((Refused) again.get(0)).why());
    }

    @Test
    void anUnknownMessageIsUnsupportedWhateverItsId() {
        rig.greeted();
        assertEquals(
                "unsupported", answer(rig.say(new Unreadable(BenchRig.MINE, 0, "dance", Refusal.UNSUPPORTED, ""))));
    }

    @Test
    void disarmingDrivesFirstAndTellsInOrder() {
        rig.armed();
        rig.say(rig.set(BenchRig.MINE));
        rig.say(rig.timed(Map.of("H1", 9), rig.nowUs + 200_000));
        rig.say(rig.timed(Map.of("H1", 5), rig.nowUs + 100_000));
        int first = rig.lastId() - 1;
        List<BenchMessage> heard = rig.say(rig.safe(BenchRig.MINE));
        assertEquals(List.of("safe", "edge", "state", "refused", "refused", "done"), kinds(heard));
        assertEquals(first, ((Refused) heard.get(3)).id());
        assertEquals("safe", ((Refused) heard.get(3)).why());
        assertEquals(first + 1, ((Refused) heard.get(4)).id());
        assertEquals(BenchRig.MINE, ((BenchMessage.Safe) heard.get(0)).by());
        assertFalse(((State) heard.get(2)).armed());
        assertTrue(rig.points.allSafe());
        assertEquals(List.of(), only(Done.class, rig.pass(400_000)));
    }

    @Test
    void aStrangersSafeIsExecutedAndSaysWhose() {
        rig.armed();
        List<BenchMessage> heard = rig.say(new Safe(BenchRig.OTHER, 0));
        assertEquals(BenchRig.OTHER, only(BenchMessage.Safe.class, heard).get(0).by());
        assertEquals(BenchRig.OTHER, only(Done.class, heard).get(0).session());
        assertFalse(rig.bench.armed());
    }

    @Test
    void aSafeThatCannotBeAnsweredIsExecuted() {
        rig.armed();
        List<BenchMessage> heard = rig.say(new Safe("", Safe.NO_ID));
        assertEquals(List.of("safe", "state"), kinds(heard));
        assertFalse(rig.bench.armed());
    }

    @Test
    void safeOnADisarmedBenchDrivesAgainAndSaysNothingElse() {
        rig.greeted();
        rig.points.takeDrives();
        assertEquals(List.of("done"), kinds(rig.say(rig.safe(BenchRig.MINE))));
        assertEquals(1, rig.points.takeDrives().size());
    }

    @Test
    void withoutBeatsTheBenchIsSafeWhenItsLimitHasPassed() {
        rig.armed();
        assertEquals(List.of(), rig.pass(299_999));
        assertTrue(rig.bench.armed());
        List<BenchMessage> heard = rig.pass(1);
        assertEquals("beat-lost", only(BenchMessage.Safe.class, heard).get(0).why());
    }

    @Test
    void aBeatCountsOnlyWithARisingNumberAndAFreshSight() {
        rig.armed();
        rig.pass(200_000);
        rig.say(new Beat(BenchRig.MINE, 10, rig.nowUs - 300_000));
        rig.pass(50_000);
        rig.say(new Beat(BenchRig.MINE, 10, rig.nowUs));
        rig.say(new Beat(BenchRig.MINE, 9, rig.nowUs));
        assertTrue(rig.pass(249_999).isEmpty() && rig.bench.armed(), "the first beat, just fresh, counts");
        rig.pass(1);
        assertFalse(rig.bench.armed(), "beats 10 again and 9 do not count");
    }

    @Test
    void aBeatThatIsStaleOrFromTheTimeToComeDoesNotCount() {
        rig.armed();
        rig.pass(200_000);
        rig.say(new Beat(BenchRig.MINE, 1, rig.nowUs - 300_001));
        rig.say(new Beat(BenchRig.MINE, 2, rig.nowUs + 1));
        rig.pass(100_000);
        assertFalse(rig.bench.armed());
    }

    @Test
    void aBeatThatComesTooLateRescuesNothing() {
        rig.armed();
        rig.nowUs += 300_000;
        List<BenchMessage> heard = rig.say(rig.beat());
        assertEquals("beat-lost", only(BenchMessage.Safe.class, heard).get(0).why());
    }

    @Test
    void beatsCountOnFromBeforeArming() {
        rig.greeted();
        rig.say(new Beat(BenchRig.MINE, 100, rig.nowUs));
        rig.say(rig.arm(Map.of()));
        rig.pass(200_000);
        rig.say(new Beat(BenchRig.MINE, 100, rig.nowUs));
        rig.pass(100_000);
        assertFalse(rig.bench.armed());
    }

    @Test
    void aLimitedInputOutsideForTwentyMillisecondsMakesSafe() {
        rig.greeted();
        rig.say(rig.arm(Map.of("P1", new Limit(600, 3600))));
        rig.points.put("P1", 3700);
        rig.pass(15_000);
        rig.points.put("P1", 3600);
        rig.pass(2_000);
        rig.points.put("P1", FakePoints.NOT_READABLE);
        rig.pass(18_000);
        assertTrue(rig.bench.armed());
        List<BenchMessage> heard = rig.pass(5_000);
        BenchMessage.Safe safe = only(BenchMessage.Safe.class, heard).get(0);
        assertEquals("limit", safe.why());
    }

    @Test
    void limitsHoldForOneArmingOnly() {
        rig.greeted();
        rig.say(rig.arm(Map.of("P1", new Limit(600, 3600))));
        rig.say(rig.safe(BenchRig.MINE));
        rig.say(rig.arm(Map.of()));
        rig.points.put("P1", 4000);
        rig.pass(100_000);
        assertTrue(rig.bench.armed());
    }

    @Test
    void aBenchThatIsNotWellIsNotArmed() {
        rig.greeted();
        rig.points.put("P1", 100);
        assertEquals("limit", answer(rig.say(rig.arm(Map.of("P1", new Limit(600, Limit.NO_HIGH))))));
        rig.bench.fault("P2", "open-loop", rig.nowUs);
        assertEquals("fault", answer(rig.say(rig.arm(Map.of("P2", new Limit(1, 3600))))));
        rig.bench.fault("", "supply", rig.nowUs);
        assertEquals("fault", answer(rig.say(rig.arm(Map.of()))));
        rig.bench.stopButton(true, rig.nowUs);
        assertEquals("stop-button", answer(rig.say(rig.arm(Map.of()))));
        rig.bench.stopButton(false, rig.nowUs);
        rig.bench.cleared("", "supply");
        assertEquals("done", answer(rig.say(rig.arm(Map.of()))));
    }

    @Test
    void stopButtonAndFaultsDisarm() {
        rig.armed();
        rig.bench.stopButton(true, rig.nowUs);
        assertEquals(
                "stop-button", only(BenchMessage.Safe.class, rig.heard()).get(0).why());
        rig.bench.stopButton(false, rig.nowUs);
        rig.say(rig.arm(Map.of("P1", new Limit(600, 3600))));
        rig.bench.fault("P2", "open-loop", rig.nowUs);
        assertTrue(rig.bench.armed(), "P2 has no limit");
        rig.bench.fault("P1", "open-loop", rig.nowUs);
        List<BenchMessage> heard = rig.heard();
        assertEquals("open-loop", only(Fault.class, heard).get(0).why());
        assertEquals("fault", only(BenchMessage.Safe.class, heard).get(0).why());
    }

    @Test
    void aLimitedPointThatCannotBeReadIsForItsLimitAndNoFault() {
        rig.greeted();
        rig.say(rig.arm(Map.of("P1", new Limit(600, 3600))));
        rig.bench.fault("P1", "not-readable", rig.nowUs);
        assertTrue(rig.bench.armed());
        rig.say(rig.safe(BenchRig.MINE));
        assertEquals("done", answer(rig.say(rig.arm(Map.of("P1", new Limit(600, 3600))))));
    }

    @Test
    void regularStatesDoNotPileUpBeforeAnAnswerOnASlowLine() {
        rig.bench.receive(rig.hello(BenchRig.MINE), rig.nowUs);
        rig.passUnheard(3_500_000);
        rig.bench.receive(rig.ping(BenchRig.MINE), rig.nowUs);

        assertEquals(List.of("greeting", "state", "pong"), kinds(rig.heard()));
        assertEquals(List.of("state"), kinds(rig.pass(1_000_000)));
    }

    @Test
    void stateComesOnceASecondAndAfterDisarming() {
        rig.greeted();
        rig.bench.badLines(3);
        List<State> states = only(State.class, rig.pass(3_000_000));
        assertEquals(3, states.size());
        assertEquals(3, states.get(0).badLines());
    }

    @Test
    void anEdgeIsReportedOnceWithItsOwnStamp() {
        rig.greeted();
        rig.bench.edge("D1", true, rig.nowUs - 250);
        rig.bench.edge("D1", true, rig.nowUs);
        rig.bench.edge("nobody", true, rig.nowUs);
        assertEquals(List.of(new Edge(BenchRig.MINE, 1, rig.nowUs - 250, "D1", true)), only(Edge.class, rig.heard()));
    }

    @Test
    void aSelfTestSaysWhatFailedAndThenThatItIsDone() {
        rig.greeted();
        rig.points.selfTestUs = 2_000_000;
        rig.points.failing.add("P2");
        rig.say(rig.selfTest(BenchRig.MINE));
        List<BenchMessage> heard = rig.pass(2_000_000);
        assertEquals(List.of("state", "state", "fault", "done"), kinds(heard));
        assertEquals("P2", ((Fault) heard.get(2)).point());
        assertEquals("self-test", ((Fault) heard.get(2)).why());
    }

    @Test
    void whatCannotBeReadOrIsOfAnotherBootIsSaidSoEvenDuringASelfTest() {
        rig.greeted();
        rig.points.selfTestUs = 2_000_000;
        rig.say(rig.selfTest(BenchRig.MINE));
        assertEquals(
                "bad-message",
                answer(rig.say(new Unreadable(BenchRig.MINE, 50, "set", Refusal.BAD_MESSAGE, "'points' must be"))));
        assertEquals(
                "stale", answer(rig.say(new HostMessage.Arm(BenchRig.MINE, 51, "00000000", rig.nowUs, 300, Map.of()))));
    }

    @Test
    void safeEndsASelfTest() {
        rig.greeted();
        rig.points.selfTestUs = 2_000_000;
        HostMessage.SelfTest test = rig.selfTest(BenchRig.MINE);
        rig.say(test);
        assertEquals(List.of("refused", "done"), kinds(rig.say(rig.safe(BenchRig.MINE))));
        assertEquals("safe", answer(rig.say(test)));
        assertEquals("done", answer(rig.say(rig.arm(Map.of()))));
    }

    @Test
    void aPongReadsTheClockWhenItIsSent() {
        rig.greeted();
        rig.bench.receive(rig.ping(BenchRig.MINE), rig.nowUs);
        rig.nowUs += 777;
        assertEquals(rig.nowUs, ((BenchMessage.Pong) rig.heard().get(0)).nowUs());
    }
}
