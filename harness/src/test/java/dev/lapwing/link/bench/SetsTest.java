package dev.lapwing.link.bench;

import static dev.lapwing.link.bench.BenchRig.answer;
import static dev.lapwing.link.bench.BenchRig.kinds;
import static dev.lapwing.link.bench.BenchRig.only;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.FakePoints.Drive;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Limit;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sets and arms: which are executed when, and which are refused why. */
class SetsTest {
    private static final long NOW = 1_000_000;
    private final BenchRig rig = new BenchRig();

    /** Offsets from now in µs; the word of the first answer. */
    @ParameterizedTest(name = "at {0}, until {1}: {2}")
    @CsvSource({
        "-1,         1000,       late",
        "0,          0,          queued",
        "60000000,   60000000,   queued",
        "60000001,   60000001,   too-far",
        "1000,       2001000,    queued",
        "1000,       2001001,    too-far",
    })
    void aTimedSetIsJudgedOnReceipt(long at, long until, String expected) {
        rig.armed();
        assertEquals(expected, answer(rig.say(set(Map.of("W1", 1), NOW + at, NOW + until, 0))));
    }

    @ParameterizedTest(name = "until {0}: {1}")
    @CsvSource({"-1, late", "0, done", "2000000, done", "2000001, too-far"})
    void aSetAtOnceIsJudgedOnReceipt(long until, String expected) {
        rig.armed();
        assertEquals(expected, answer(rig.say(set(Map.of("W1", 1), HostMessage.Set.ON_RECEIPT, NOW + until, 0))));
    }

    @ParameterizedTest(name = "until {0}: {1}")
    @CsvSource({"-1, late", "0, done", "2000000, done", "2000001, too-far"})
    void anArmIsJudgedOnReceipt(long until, String expected) {
        rig.greeted();
        assertEquals(expected, answer(rig.say(new Arm(BenchRig.MINE, 9, BenchRig.BOOT, NOW + until, 300, Map.of()))));
    }

    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource({
        "nobody, 1, unknown-point",
        "P1,     1, wrong-kind",
        "D1,     1, wrong-kind",
        "W1,     2, out-of-range",
        "W1,    -1, out-of-range",
        "M1,  1000, done",
        "M1,  1001, out-of-range",
    })
    void pointsAndValuesAreChecked(String point, int value, String expected) {
        rig.armed();
        rig.points.takeDrives();
        assertEquals(
                expected, answer(rig.say(set(Map.of("H1", 7, point, value), HostMessage.Set.ON_RECEIPT, NOW + 10, 0))));
        assertEquals(expected.equals("done") ? 1 : 0, rig.points.takeDrives().size(), "the whole command or nothing");
    }

    @ParameterizedTest(name = "{0} from {1} to {2}, beat {3} ms: {4}")
    @CsvSource({
        "nobody, 1, 2,    300, unknown-point",
        "H1,     1, 2,    300, wrong-kind",
        "P1,     0, 2000, 300, out-of-range",
        "P1,     1, 2000, 300, done",
        "P1,     1, 4095, 300, out-of-range",
        "P1,     1, 4094, 300, done",
        "P1,     1, 999,  300, limit",
        "P1,     1, 4094, 99,  out-of-range",
        "P1,     1, 4094, 301, out-of-range",
    })
    void limitsAndBeatAreChecked(String point, int low, int high, int beatMs, String expected) {
        rig.greeted();
        Map<String, Limit> limits = Map.of(point, new Limit(low, high));
        assertEquals(expected, answer(rig.say(new Arm(BenchRig.MINE, 9, BenchRig.BOOT, NOW, beatMs, limits))));
    }

    @Test
    void anotherBootIsStale() {
        rig.greeted();
        assertEquals("stale", answer(rig.say(new Arm(BenchRig.MINE, 9, "00000000", NOW, 300, Map.of()))));
        rig.say(rig.arm(Map.of()));
        assertEquals(
                "stale",
                answer(rig.say(new HostMessage.Set(BenchRig.MINE, 90, "00000000", Map.of("W1", 1), -1, NOW, 0))));
    }

    @Test
    void armingMakesOutputsLiveAtTheirSafeValues() {
        rig.greeted();
        List<BenchMessage> heard = rig.say(rig.arm(Map.of()));
        assertEquals(List.of("done", "state"), kinds(heard));
        assertEquals(NOW, ((Done) heard.get(0)).atUs());
        assertEquals(
                Map.of("W1", 0, "W2", 1, "H1", 0, "F1", 0, "M1", 500),
                onlyDrive().counts());
    }

    @Test
    void timedSetsGoByTimeThenById() {
        rig.armed();
        rig.points.takeDrives();
        rig.say(rig.timed(Map.of("H1", 3), NOW + 2_000));
        rig.say(rig.timed(Map.of("H1", 1), NOW + 1_000));
        rig.say(rig.timed(Map.of("H1", 2), NOW + 1_000));
        rig.pass(2_000);
        assertEquals(
                List.of(1, 2, 3),
                rig.points.takeDrives().stream()
                        .map(drive -> drive.counts().get("H1"))
                        .toList());
    }

    @Test
    void aTimedSetIsDrivenAtItsTimeAndSaysWhen() {
        rig.armed();
        rig.points.takeDrives();
        rig.say(rig.timed(Map.of("W1", 1), NOW + 1_234));
        List<BenchMessage> heard = rig.pass(10_000);
        assertEquals(List.of("done", "edge"), kinds(heard));
        assertEquals(NOW + 1_234, ((Done) heard.get(0)).atUs());
        assertEquals(NOW + 1_234, ((Edge) heard.get(1)).tUs());
        assertEquals(NOW + 1_234, onlyDrive().atUs());
    }

    @Test
    void aTimedSetThatComesTooLateIsNotDriven() {
        rig.armed();
        rig.points.setDelayUs = 6_000;
        rig.points.takeDrives();
        rig.say(rig.timed(Map.of("W1", 1), NOW + 1_000));
        assertEquals("late", answer(rig.pass(20_000)));
        assertEquals(List.of(), rig.points.takeDrives());
    }

    @Test
    void aFullQueueTakesNoMore() {
        BenchRig one = new BenchRig(FakePoints.card(1, 300, true), 0);
        one.armed();
        assertEquals("queued", answer(one.say(one.timed(Map.of("W1", 1), NOW + 1_000))));
        assertEquals("queue-full", answer(one.say(one.timed(Map.of("W1", 0), NOW + 2_000))));
        one.pass(1_000);
        assertEquals("queued", answer(one.say(one.timed(Map.of("W1", 0), NOW + 2_000))));
    }

    @Test
    void aRampIsStraightAndDigitalPointsSwitchAtItsStart() {
        rig.armed();
        rig.say(set(Map.of("H1", 1000), -1, NOW, 0));
        rig.points.takeDrives();
        List<BenchMessage> heard = rig.say(set(Map.of("H1", 2000, "W1", 1), -1, NOW, 100_000));
        assertEquals(NOW, only(Done.class, heard).get(0).atUs());
        assertEquals(Map.of("W1", 1), onlyDrive().counts());
        rig.pass(25_000);
        assertEquals(1250, rig.points.get("H1"));
        rig.pass(50_000);
        assertEquals(1750, rig.points.get("H1"));
        rig.pass(25_000);
        assertEquals(2000, rig.points.get("H1"));
        rig.points.takeDrives();
        rig.pass(50_000);
        assertEquals(List.of(), rig.points.takeDrives(), "a ramp that is over drives no more");
    }

    @Test
    void aLaterSetTakesOverOnlyWhatItNames() {
        rig.armed();
        rig.say(set(Map.of("H1", 1000, "F1", 1000), -1, NOW, 100_000));
        rig.pass(50_000);
        rig.say(set(Map.of("H1", 100), -1, rig.nowUs, 100_000));
        rig.pass(50_000);
        assertEquals(1000, rig.points.get("F1"));
        assertEquals(300, rig.points.get("H1"));
    }

    @Test
    void disarmingEndsRamps() {
        rig.armed();
        rig.say(set(Map.of("H1", 1000), -1, NOW, 100_000));
        rig.pass(50_000);
        rig.say(rig.safe(BenchRig.MINE));
        rig.points.takeDrives();
        rig.pass(100_000);
        assertEquals(List.of(), rig.points.takeDrives());
        assertEquals(0, rig.points.get("H1"));
    }

    private HostMessage.Set set(Map<String, Integer> values, long atUs, long untilUs, long overUs) {
        HostMessage.Set next = rig.set(BenchRig.MINE);
        return new HostMessage.Set(BenchRig.MINE, next.id(), BenchRig.BOOT, values, atUs, untilUs, overUs);
    }

    private Drive onlyDrive() {
        List<Drive> drives = rig.points.takeDrives();
        assertEquals(1, drives.size());
        return drives.get(0);
    }
}
