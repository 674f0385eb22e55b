package dev.lapwing.e2e;

import static dev.lapwing.Patience.await;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.BenchMessage.Safe;
import dev.lapwing.link.BenchMessage.State;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.Samples;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.host.HostEvent;
import dev.lapwing.time.MonotonicClock;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * The host's session against the reference bench in C, over its pseudo-terminal: both were written from the contract
 * alone.
 */
@NeedsTools({"make", "cc", "nm", "kill"})
class ThirdPartyBenchIT {
    /** The greatest that the bench allows: a busy machine keeps this host from beating. */
    private static final int BEAT_MS = 500;
    /** Without a good reading for 20 ms, and safe within 5 ms more. */
    private static final long OUTSIDE_US = 25_000;
    /** Between two samples of the stream that shows it. */
    private static final long LOOKED_AT_US = 2_000;

    private ReferenceBench bench;
    private SerialTalk talk;

    @BeforeAll
    static void build() throws Exception {
        ReferenceBench.build();
        // A first exchange waits for classes to be loaded; a host that measures so slow a link rightly does not arm.
        try (ReferenceBench first = ReferenceBench.start("worked.points");
                SerialTalk warm = new SerialTalk(first.device(), "00000001")) {
            warm.until("the greeting", () -> warm.session.card().isPresent());
            warm.arm(Map.of(), BEAT_MS);
            warm.forMs(1_000);
        }
    }

    @BeforeEach
    void start() throws Exception {
        bench = ReferenceBench.start("worked.points");
        talk = new SerialTalk(bench.device(), "5be1c07d");
    }

    @AfterEach
    void end() {
        talk.close();
        bench.close();
    }

    private void greet() {
        talk.until("the greeting", () -> talk.session.card().isPresent());
    }

    private void arm(Map<String, Limit> limits) {
        greet();
        assertThat(talk.arm(limits, BEAT_MS)).isInstanceOf(Done.class);
        talk.reported(State.class, State::armed);
    }

    private static String refusal(Answer answer) {
        assertThat(answer).isInstanceOf(Refused.class);
        return ((Refused) answer).why();
    }

    /** Says nothing until the bench must have missed the heartbeat: it alone can tell, and is asked afterwards. */
    private static void pastTheLimit() {
        MonotonicClock clock = MonotonicClock.system();
        long fromNanos = clock.nanos();
        await("the heartbeat limit passes").until(() -> clock.nanos() - fromNanos > 2 * BEAT_MS * 1_000_000L);
    }

    private long nowUs() {
        long earlier = talk.events.size();
        State state =
                talk.reported(State.class, later -> talk.events.indexOf(new HostEvent.Reported(later)) >= earlier);
        return state.tUs();
    }

    @Test
    void theGreetingTellsWhatTheBenchHas() {
        greet();
        assertThat(talk.session.card().orElseThrow().name()).isEqualTo("simulated-bay-2");
        State state = talk.reported(State.class, any -> true);
        assertThat(state.n()).isZero();
        assertThat(state.armed()).isFalse();
        assertThat(state.digital()).containsOnlyKeys("D1", "W1");
    }

    @Test
    void aSetIsQueuedDoneInTimeAndReadBack() {
        arm(Map.of());
        long atUs = nowUs() + 300_000;
        int id = talk.session.set(Map.of("W1", 1, "H1", 2048), atUs, atUs + 10_000, 0);
        talk.answered(id, Queued.class);
        Done done = talk.answered(id, Done.class);
        assertThat(done.atUs()).isBetween(atUs, atUs + 10_000);
        Edge out = talk.reported(Edge.class, edge -> edge.point().equals("W1") && edge.to());
        Edge back = talk.reported(Edge.class, edge -> edge.point().equals("D1") && !edge.to());
        assertThat(out.tUs()).isBetween(atUs, atUs + 10_000);
        assertThat(back.tUs() - out.tUs()).isBetween(12_000L - 100, 12_000L + 1_000);
    }

    @Test
    void aRampIsAStraightLineAtTheInputThatFollowsIt() {
        arm(Map.of());
        talk.answered(talk.session.stream("slow", List.of("P1", "P2"), 10_000, 5, 100, false), Done.class);
        long atUs = nowUs() + 200_000;
        talk.answered(talk.session.set(Map.of("H1", 4000), atUs, atUs + 10_000, 1_000_000), Done.class);
        talk.reported(Samples.class, samples -> samples.latestUs() > atUs + 4_000_000);
        int previous = 0;
        for (HostEvent event : talk.events) {
            if (event instanceof HostEvent.Reported reported && reported.report() instanceof Samples samples) {
                for (int row = 0; row < samples.rows(); row++) {
                    assertThat(samples.count(row, 0)).isGreaterThanOrEqualTo(previous - 3);
                    previous = samples.count(row, 0);
                }
            }
        }
        // 812 counts, and 0.6 of 4000 more
        assertThat(previous).isBetween(3212 - 5, 3212 + 5);
    }

    @Test
    void aSilentHostLeavesTheOutputsSafeWithinTheLimit() {
        arm(Map.of());
        long atUs = nowUs() + 200_000;
        talk.answered(talk.session.set(Map.of("W1", 1), atUs, atUs + 10_000, 0), Done.class);
        talk.reported(Edge.class, edge -> edge.point().equals("W1") && edge.to());
        long lastUs = talk.reported(State.class, any -> true).tUs();
        pastTheLimit();
        Safe safe = talk.reported(Safe.class, any -> true);
        Edge edge = talk.reported(Edge.class, one -> one.point().equals("W1") && !one.to());
        State state = talk.reported(State.class, one -> !one.armed() && one.n() > safe.n());
        assertThat(safe.why()).isEqualTo("beat-lost");
        assertThat(safe.tUs()).isGreaterThan(lastUs);
        assertThat(Math.abs(edge.tUs() - safe.tUs())).isLessThanOrEqualTo(5_000);
        assertThat(state.digital().get("W1")).isFalse();
    }

    @Test
    void theStopButtonMakesSafeAndForbidsArmingUntilItIsReleased() throws Exception {
        arm(Map.of());
        bench.pressesOrReleasesTheStopButton();
        Safe safe = talk.reported(Safe.class, any -> true);
        assertThat(safe.why()).isEqualTo("stop-button");
        talk.reported(State.class, state -> state.n() > safe.n() && state.stop() && !state.armed());
        assertThat(refusal(talk.arm(Map.of(), BEAT_MS))).startsWith("stop-button");
        bench.pressesOrReleasesTheStopButton();
        talk.reported(State.class, state -> state.n() > safe.n() && !state.stop());
        assertThat(talk.arm(Map.of(), BEAT_MS)).isInstanceOf(Done.class);
    }

    @Test
    void aSupplyFaultMakesSafeAndForbidsArmingWhileItLasts() throws Exception {
        arm(Map.of());
        bench.makesOrMendsASupplyFault();
        assertThat(talk.reported(Fault.class, any -> true).why()).startsWith("supply");
        assertThat(talk.reported(Safe.class, any -> true).why()).isEqualTo("fault");
        assertThat(refusal(talk.arm(Map.of(), BEAT_MS))).startsWith("fault");
        bench.makesOrMendsASupplyFault();
        talk.forMs(100);
        assertThat(talk.arm(Map.of(), BEAT_MS)).isInstanceOf(Done.class);
    }

    @Test
    void aPassedLimitMakesSafeWithinTwentyFiveMilliseconds() {
        arm(Map.of("P1", new Limit(600, 1500)));
        long atUs = nowUs() + 200_000;
        talk.answered(talk.session.stream("p", List.of("P1"), LOOKED_AT_US, 10, 50, false), Done.class);
        talk.answered(talk.session.set(Map.of("H1", 4000), atUs, atUs + 10_000, 0), Done.class);
        Safe safe = talk.reported(Safe.class, any -> true);
        assertThat(safe.why()).isEqualTo("limit");
        talk.reported(Samples.class, samples -> samples.latestUs() > safe.tUs());
        long outsideUs = firstAbove(1500);
        assertThat(safe.tUs() - outsideUs).isBetween(20_000L - 2 * LOOKED_AT_US, OUTSIDE_US + LOOKED_AT_US);
    }

    private long firstAbove(int counts) {
        for (HostEvent event : talk.events) {
            if (event instanceof HostEvent.Reported reported && reported.report() instanceof Samples samples) {
                for (int row = 0; row < samples.rows(); row++) {
                    if (samples.count(row, 0) > counts) {
                        return samples.t0Us() + row * samples.everyUs();
                    }
                }
            }
        }
        throw new AssertionError("never above " + counts);
    }

    @Test
    void denseSamplesComeWholeAndOnOneGrid() {
        greet();
        int id = talk.session.stream("quick", List.of("P1", "P2"), 200, 100, 50, true);
        talk.answered(id, Done.class);
        talk.forMs(1_000);
        talk.answered(talk.session.endStream("quick"), Done.class);
        long nextUs = -1;
        int rows = 0;
        for (var message : talk.came) {
            if (message instanceof Samples samples) {
                assertThat(samples.dense()).isTrue();
                assertThat(samples.of()).isEqualTo(id);
                assertThat(nextUs < 0 || samples.t0Us() == nextUs).as("no gap").isTrue();
                nextUs = samples.latestUs() + 200;
                rows += samples.rows();
                assertThat(samples.count(0, 1)).isBetween(1023, 1025);
            }
        }
        assertThat(rows).isGreaterThan(3_000);
        assertThat(talk.told(HostEvent.Lost.class, any -> true)).isEmpty();
    }

    @Test
    void garbageOnTheLineIsCountedAndHarmsNothing() {
        arm(Map.of());
        SplittableRandom random = new SplittableRandom(7);
        for (int i = 0; i < 20; i++) {
            byte[] raw = new byte[64];
            random.nextBytes(raw);
            raw[63] = '\n';
            talk.says(raw);
            talk.forMs(10);
        }
        State state = talk.reported(State.class, one -> one.badLines() >= 20);
        assertThat(state.armed()).isTrue();
        assertThat(talk.report(Safe.class, any -> true)).isEmpty();
    }

    @Test
    void aSafeWithNonsenseInItIsDoneAndNotAnswered() {
        arm(Map.of());
        talk.says(SerialEncoder.line("{\"m\":\"safe\",\"id\":-3,\"session\":17}".getBytes(UTF_8)));
        Safe safe = talk.reported(Safe.class, any -> true);
        assertThat(safe.why()).isEqualTo("host");
        assertThat(safe.by()).isEmpty();
        talk.reported(State.class, state -> !state.armed() && state.n() > safe.n());
    }

    @Test
    void aSecondHostIsBusyWhileArmedAndTakesOverAfterwards() {
        arm(Map.of());
        // A device is opened once; behind a gateway that two hosts reach, both speak over the same line.
        talk.says(SerialEncoder.line(
                "{\"m\":\"hello\",\"id\":1,\"session\":\"0a0a0a0a\",\"link\":1,\"host\":\"b\"}".getBytes(UTF_8)));
        talk.until(
                "busy",
                () -> talk.came.stream()
                        .anyMatch(message -> message instanceof Refused refused
                                && refused.session().equals("0a0a0a0a")
                                && refused.why().startsWith("busy")));
        assertThat(talk.session.armed()).isTrue();
        talk.close();
        pastTheLimit();
        talk = new SerialTalk(bench.device(), "0b0b0b0b");
        greet();
        assertThat(talk.reported(State.class, any -> true).armed()).isFalse();
        assertThat(talk.arm(Map.of(), BEAT_MS)).isInstanceOf(Done.class);
    }

    @Test
    void aHostThatFinishesHasEverythingAndTheBenchIsSafe() {
        arm(Map.of());
        talk.answered(talk.session.stream("slow", List.of("P1", "P2"), 1_000, 50, 500, false), Done.class);
        talk.forMs(500);
        talk.session.finish(MonotonicClock.system().nanos());
        talk.until(
                "everything is here",
                () -> talk.told(HostEvent.Finished.class, any -> true).isPresent());
        assertThat(talk.report(Safe.class, any -> true).orElseThrow().by()).isEqualTo("5be1c07d");
        assertThat(talk.told(HostEvent.Lost.class, any -> true)).isEmpty();
    }
}
