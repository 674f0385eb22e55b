package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ConditionWatchTest {
    private static final Signal PIPE = Keys.signal("brake-pipe@1").orElseThrow();
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final Signal.Wire LIGHT = new Signal.Wire("warning-light");

    /** What a watch says while a run is on is what it says of the whole run afterwards. */
    @Test
    void followingARunAsItGrowsFindsWhatIsFoundAfterwards() {
        for (int seed = 0; seed < 60; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            double period = 0.3 + random.nextDouble();
            Feed feed = new Feed(random, t -> 50 + 20 * StrictMath.sin(t / period), t -> 4 * t);
            PlannedCondition condition = condition(random, 2);
            long fromUs = random.nextInt(500_000);

            ConditionWatch live = ConditionWatch.of(condition, fromUs, feed.recording());
            while (feed.more()) {
                live.advance();
            }
            live.advance();
            ConditionWatch batch = ConditionWatch.of(condition, fromUs, feed.recording());
            batch.advance();

            assertThat(live.knownUntilUs()).as("seed %d", seed).isEqualTo(batch.knownUntilUs());
            assertThat(changes(live)).as("seed %d: %s", seed, condition).isEqualTo(changes(batch));
            assertThat(live.firstHeldUs()).as("seed %d", seed).isEqualTo(batch.firstHeldUs());
        }
    }

    private static List<Long> changes(ConditionWatch watch) {
        List<Long> times = new ArrayList<>();
        watch.truth().ifPresent(truth -> {
            times.add(truth.at(truth.fromUs()) ? 1L : 0L);
            for (int i = 0; i < truth.size(); i++) {
                times.add(truth.timeUs(i));
            }
        });
        return times;
    }

    private static PlannedCondition condition(SplittableRandom random, int depth) {
        return switch (random.nextInt(depth > 0 ? 5 : 3)) {
            case 0 -> new PlannedCondition.Above(PIPE, (40 + random.nextInt(20)) * PSI);
            case 1 -> new PlannedCondition.Below(CYLINDER, (5 + random.nextInt(10)) * PSI);
            case 2 -> new PlannedCondition.WireIs(LIGHT, random.nextBoolean());
            case 3 -> new PlannedCondition.AllOf(List.of(condition(random, depth - 1), condition(random, depth - 1)));
            default -> new PlannedCondition.AnyOf(List.of(condition(random, depth - 1), condition(random, depth - 1)));
        };
    }

    @Test
    void oneNoisySampleIsNoEvent() {
        HandMade run = new HandMade(20, 1).pressure("brake-pipe@1", t -> 49.9);
        ConditionWatch watch = ConditionWatch.of(new PlannedCondition.Above(PIPE, 50 * PSI), 0, run);
        watch.advance();
        assertThat(watch.firstHeldUs()).isEmpty();
        assertThat(watch.holds()).isFalse();
    }

    @Test
    void aStepIsTimedByItsSamplesAndNotByTheMeanThatSmearsIt() {
        for (double level : new double[] {1, 35, 69}) {
            HandMade run = new HandMade(5, 1).pressure("brake-pipe@1", t -> t < 2.001 ? 70 : 0);
            ConditionWatch watch = ConditionWatch.of(new PlannedCondition.Below(PIPE, level * PSI), 0, run);
            watch.advance();
            assertThat(watch.firstHeldUs().orElseThrow()).isCloseTo(2_001_000, within(1_001L));
        }
    }

    @Test
    void aRampIsTimedWhereItGoesThroughTheLevel() {
        HandMade run = new HandMade(5, 1).pressure("brake-pipe@1", t -> 10 * t);
        ConditionWatch watch = ConditionWatch.of(new PlannedCondition.Above(PIPE, 25 * PSI), 0, run);
        watch.advance();
        assertThat(watch.firstHeldUs().orElseThrow()).isCloseTo(2_500_000, within(6_000L));
    }

    @Test
    void stretchesAreCutToTheirWindow() {
        Edges edges = new Edges(true, 0);
        edges.append(10, false);
        edges.append(20, true);
        edges.append(30, false);
        edges.append(40, true);
        Window window = new Window(5, 45);
        List<Window> on = Stretches.of(edges, window);
        assertThat(on).containsExactly(new Window(5, 10), new Window(20, 30), new Window(40, 45));
        assertThat(Stretches.outside(on, window)).containsExactly(new Window(10, 20), new Window(30, 40));
        assertThat(Stretches.both(on, List.of(new Window(8, 22))))
                .containsExactly(new Window(8, 10), new Window(20, 22));
    }
}
