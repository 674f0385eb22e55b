package dev.lapwing.link.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.HostMessage;
import java.util.Map;
import java.util.function.BiFunction;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The contract's table of what a bench does, every message in every state, and what the state is afterwards. */
class StateTableTest {
    private static final Map<String, BiFunction<BenchRig, String, HostMessage>> MESSAGES = Map.of(
            "hello", BenchRig::hello,
            "ping", BenchRig::ping,
            "stream", BenchRig::stream,
            "self-test", BenchRig::selfTest,
            "arm", (rig, session) -> rig.arm(session, Map.of()),
            "set", BenchRig::set,
            "beat", BenchRig::beat,
            "safe", BenchRig::safe);

    /**
     * Message, then its answer with no session; disarmed; armed; of another session's host, the bench disarmed; armed.
     */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "hello,     greeting,   greeting,  greeting, greeting, busy",
        "ping,      no-session, pong,      pong,     busy,     busy",
        "stream,    no-session, done,      done,     busy,     busy",
        "self-test, no-session, queued,    armed,    busy,     busy",
        "arm,       no-session, done,      armed,    busy,     busy",
        "set,       no-session, not-armed, done,     busy,     busy",
        "beat,      nothing,    nothing,   nothing,  nothing,  nothing",
        "safe,      done,       done,      done,     done,     done",
    })
    void everyMessageIsAnsweredAsTheTableSays(
            String m, String none, String disarmed, String armed, String strangerDisarmed, String strangerArmed) {
        assertEquals(none, answer(m, new BenchRig(), BenchRig.MINE));
        assertEquals(disarmed, answer(m, new BenchRig().greeted(), BenchRig.MINE));
        assertEquals(armed, answer(m, new BenchRig().armed(), BenchRig.MINE));
        assertEquals(strangerDisarmed, answer(m, new BenchRig().greeted(), BenchRig.OTHER));
        assertEquals(strangerArmed, answer(m, new BenchRig().armed(), BenchRig.OTHER));
    }

    /** Whether the bench is armed afterwards, in the same states. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "hello,     false, false, true,  false, true",
        "ping,      false, false, true,  false, true",
        "stream,    false, false, true,  false, true",
        "self-test, false, false, true,  false, true",
        "arm,       false, true,  true,  false, true",
        "set,       false, false, true,  false, true",
        "beat,      false, false, true,  false, true",
        "safe,      false, false, false, false, false",
    })
    void onlyArmArmsAndOnlySafeDisarms(
            String m, boolean none, boolean disarmed, boolean armed, boolean strangerDisarmed, boolean strangerArmed) {
        assertEquals(none, armedAfter(m, new BenchRig(), BenchRig.MINE));
        assertEquals(disarmed, armedAfter(m, new BenchRig().greeted(), BenchRig.MINE));
        assertEquals(armed, armedAfter(m, new BenchRig().armed(), BenchRig.MINE));
        assertEquals(strangerDisarmed, armedAfter(m, new BenchRig().greeted(), BenchRig.OTHER));
        assertEquals(strangerArmed, armedAfter(m, new BenchRig().armed(), BenchRig.OTHER));
    }

    /** While a self-test runs: of the bench's own host, and of another. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "hello,     busy,    busy",
        "ping,      pong,    busy",
        "stream,    busy,    busy",
        "self-test, busy,    busy",
        "arm,       busy,    busy",
        "set,       busy,    busy",
        "beat,      nothing, nothing",
    })
    void duringASelfTestAllButPingBeatAndSafeIsBusy(String m, String own, String stranger) {
        assertEquals(own, answer(m, testing(), BenchRig.MINE));
        assertEquals(stranger, answer(m, testing(), BenchRig.OTHER));
    }

    /** A beat of a stranger, or of a disarmed bench's host, keeps nothing armed. */
    @ParameterizedTest(name = "beats of {0}")
    @CsvSource({BenchRig.MINE + ", true", BenchRig.OTHER + ", false"})
    void onlyBeatsOfItsOwnSessionCount(String session, boolean staysArmed) {
        BenchRig rig = new BenchRig().armed();
        rig.pass(200_000);
        rig.say(rig.beat(session));
        rig.pass(200_000);
        assertEquals(staysArmed, rig.bench.armed());
        rig.pass(100_000);
        assertFalse(rig.bench.armed());
        assertTrue(rig.points.allSafe());
    }

    private static BenchRig testing() {
        BenchRig rig = new BenchRig();
        rig.points.selfTestUs = 5_000_000;
        rig.greeted();
        rig.say(rig.selfTest(BenchRig.MINE));
        return rig;
    }

    private static String answer(String m, BenchRig rig, String session) {
        return BenchRig.answer(rig.say(MESSAGES.get(m).apply(rig, session)));
    }

    private static boolean armedAfter(String m, BenchRig rig, String session) {
        rig.say(MESSAGES.get(m).apply(rig, session));
        return rig.bench.armed();
    }
}
