package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Tube;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Input;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class GrowingRecordingTest {
    private static final Signal PIPE = Keys.signal("brake-pipe@1").orElseThrow();
    private static final Signal.Wire LIGHT = new Signal.Wire("warning-light");

    @Test
    void countsBecomePressuresAndTheFilterLeavesTheStamps() {
        Feed feed = new Feed(new SplittableRandom(1), t -> 10 * t, t -> 0);
        while (feed.more()) {}
        Trace trace = feed.recording().sampled(PIPE).orElseThrow().trace();
        assertThat(trace.timeUs(0)).isEqualTo(-Feed.FILTER_US);
        for (int i = 0; i < trace.size(); i += 97) {
            assertThat(trace.value(i) / PSI).isCloseTo(10 * trace.timeUs(i) * 1e-6, within(0.3));
        }
        assertThat(trace.timeUs(500)).isEqualTo(500 * 2000 - Feed.FILTER_US);
    }

    /** Through a tube of 3 ms ± 800 µs the same samples happened 3 ms earlier, and the instants share a doubt of it. */
    @Test
    void theDelayOfATubeLeavesTheStampsAndItsBoundStays() {
        BenchFile plain = Feed.bench();
        var inputs = plain.inputs().stream()
                .map(input -> input.signal().equals(PIPE)
                        ? new dev.lapwing.bench.Input(
                                PIPE, input.point(), input.calibration(), new Tube(3000, 800), input.place())
                        : input)
                .toList();
        GrowingRecording recording = new GrowingRecording(plain.withInputs(inputs));
        recording.samples(new SampleBlock(plain.streams().get(0), 0, 2, new int[] {2000, 2000, 2000, 2000}));
        recording.lost("quick", 4_000, 100_000);
        Sampled pipe = recording.sampled(PIPE).orElseThrow();
        assertThat(pipe.trace().timeUs(0)).isEqualTo(-Feed.FILTER_US - 3000);
        assertThat(recording.lost(PIPE)).containsExactly(new Window(1_000 - Feed.FILTER_US, 100_000));
        assertThat(pipe.instrument().instantBoundUs()).isEqualTo(820);
        assertThat(Timing.instant(pipe.instrument(), 1))
                .containsExactly(
                        Component.of("stamp/BP1", 1, Input.within(20 * 1e-6, Dimension.TIME)),
                        Component.of("tube/BP1", 1, Input.within(800 * 1e-6, Dimension.TIME)));
    }

    @Test
    void theChannelsDoubtComesFromItsPointAndCalibration() {
        Sampled pipe = new GrowingRecording(Feed.bench()).sampled(PIPE).orElseThrow();
        assertThat(pipe.instrument().point()).isEqualTo("BP1");
        assertThat(pipe.instrument().calibration()).isEqualTo(0.1 * PSI);
        assertThat(pipe.instrument().resolution() / PSI).isCloseTo(150.0 / 60_000, within(1e-12));
        assertThat(pipe.instrument().clockRateBound()).isEqualTo(20e-6);
        assertThat(pipe.everyUs()).isEqualTo(2000);
        assertThat(pipe.least() / PSI).isCloseTo(-5, within(1e-9));
    }

    @Test
    void lostBlocksLeaveAGapAndAreKnown() {
        GrowingRecording recording = new GrowingRecording(Feed.bench());
        var stream = Feed.bench().streams().get(0);
        recording.samples(new SampleBlock(stream, 0, 2, new int[] {2000, 2000, 2000, 2000}));
        recording.lost("quick", 4_000, 100_000);
        recording.samples(new SampleBlock(stream, 100_000, 2, new int[] {2400, 2000, 2400, 2000}));
        Trace trace = recording.sampled(PIPE).orElseThrow().trace();
        assertThat(trace.size()).isEqualTo(4);
        assertThat(trace.timeUs(2)).isEqualTo(100_000 - Feed.FILTER_US);
        assertThat(trace.timeUs(1)).isEqualTo(2_000 - Feed.FILTER_US);
        assertThat(trace.value(2) / PSI).isCloseTo(1, within(1e-9));
        // What happened at 3.2 ms would have been in the sample that was stamped 4 ms.
        assertThat(recording.lost(PIPE)).containsExactly(new Window(4_000 - Feed.FILTER_US, 100_000));
        assertThat(recording.lost(LIGHT)).isEmpty();
    }

    @Test
    void aWireIsUnknownFromALossUntilItsLevelIsToldAgain() {
        GrowingRecording recording = new GrowingRecording(Feed.bench());
        recording.edge("D1", 1_000, false);
        recording.lost("D1", 4_000, 100_000);
        recording.reportedUntil(2_000_000);
        assertThat(recording.lost(LIGHT).get(0).toUs()).isEqualTo(recording.untilUs());
        recording.edge("D1", 900_000, false);
        assertThat(recording.lost(LIGHT).get(0).toUs()).isBetween(890_000L, 900_000L);
        assertThat(recording.switched(LIGHT).orElseThrow().edges().size()).isZero();
    }

    /** On a polled bench the stamps of a stimulus and of what it switches overlap. */
    @Test
    void aWireThatSeemsToSwitchJustBeforeItsStimulusIsNotWaitedFor() {
        PlannedExpectation lights = new PlannedExpectation(
                "lights",
                "comes on",
                "s:1:1",
                new Check.WireSwitches(LIGHT, true, 42, Limits.atMost(Dimension.TIME, 20)));
        GrowingRecording recording = new GrowingRecording(Feed.bench());
        recording.edge("D1", 1_000, false);
        recording.edge("D1", 400_000, true);
        recording.reportedUntil(900_000);

        assertThat(CheckWatch.of(lights, 450_000, 60_000, recording).decided(900_000))
                .isTrue();
        assertThat(CheckWatch.of(lights, 450_000, 10_000, recording).decided(900_000))
                .isFalse();
    }

    @Test
    void nothingIsDecidedBeforeAnythingWasReported() {
        PlannedExpectation quiet = new PlannedExpectation(
                "quiet",
                "never on",
                "s:1:1",
                new Check.NeverHolds(
                        new PlannedCondition.WireIs(LIGHT, true),
                        0,
                        OptionalDouble.of(1),
                        Limits.atMost(Dimension.COUNT, 0)));
        GrowingRecording recording = new GrowingRecording(Feed.bench());
        recording.edge("D1", 1_000, false);
        CheckWatch watch = CheckWatch.of(quiet, 2_000, 0, recording);
        assertThat(CheckWatch.of(quiet, 2_000, 0, new GrowingRecording(Feed.bench()))
                        .decided(2_000))
                .isFalse();
        assertThat(watch.decided(2_000)).isFalse();
        recording.reportedUntil(1_100_000);
        assertThat(watch.decided(1_100_000)).isTrue();
    }

    @Test
    void samplesToldTwiceAreTakenOnce() {
        GrowingRecording recording = new GrowingRecording(Feed.bench());
        var stream = Feed.bench().streams().get(0);
        SampleBlock block = new SampleBlock(stream, 0, 2, new int[] {2000, 2000, 2000, 2000});
        recording.samples(block);
        recording.samples(block);
        assertThat(recording.sampled(PIPE).orElseThrow().trace().size()).isEqualTo(2);
    }

    @Test
    void aPointInTwoStreamsIsReadFromTheQuickerAlone() {
        GrowingRecording recording = new GrowingRecording(Feed.bench());
        recording.samples(new SampleBlock(Feed.bench().streams().get(1), 0, 2, new int[] {2000, 2000}));
        assertThat(recording.sampled(PIPE).orElseThrow().trace().size()).isZero();
    }

    @Test
    void aWireIsUnknownUntilItsLevelIsTold() {
        GrowingRecording recording = new GrowingRecording(Feed.bench());
        assertThat(recording.switched(LIGHT)).isEmpty();
        recording.edge("D1", 5_000, true);
        assertThat(recording.switched(LIGHT).orElseThrow().edges().at(5_000)).isTrue();
        assertThat(recording.untilUs()).isEqualTo(5_000 - Feed.GLITCH_US);
    }
}
