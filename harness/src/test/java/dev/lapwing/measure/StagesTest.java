package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.measure.Stages.Began;
import dev.lapwing.measure.Stages.Stage;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Window;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class StagesTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final PlannedCondition WIRE = new PlannedCondition.WireIs(new Signal.Wire("holding"), true);
    private static final PlannedCondition ABOVE = new PlannedCondition.Above(CYLINDER, 20 * PSI);
    private static final Window ALL = new Window(0, 9_000_000);

    /** A wire has no noise: what it did for 5 ms it did. */
    @Test
    void aWiresShortestPulseIsAStage() {
        HandMade run = new HandMade(9, 1).wire("holding", 2, 2.005, 2.01, 4);
        assertThat(stages(WIRE, run).first(ALL)).contains(new Stage(2_000_000, 2_005_000, 2_000_000, 2_005_000));
        Window later = new Window(2_006_000, 9_000_000);
        assertThat(stages(WIRE, run).first(later)).contains(new Stage(2_010_000, 4_000_000, 2_010_000, 4_000_000));
    }

    /** At 0.1 psi/s noise carries a mean over the level many times within the half second about it. */
    @Test
    void noiseOnASlowSlopeMakesOneStageThatBeginsAndEndsInTheMiddle() {
        HandMade run = new HandMade(9, 1).pressure(CYLINDER.key(), t -> 20.15 - 0.1 * Math.abs(t - 4.5));
        ConditionWatch raw = ConditionWatch.of(ABOVE, 0, run);
        raw.advance();
        assertThat(raw.truth().orElseThrow().size()).isGreaterThan(4);
        Stage stage = stages(ABOVE, run).first(ALL).orElseThrow();
        assertThat(stage.fromUs() * 1e-6).isCloseTo(3, within(0.3));
        assertThat(stage.toUs() * 1e-6).isCloseTo(6, within(0.3));
    }

    @Test
    void whatOnlyNoiseCarriesOverALevelNeverBegan() {
        HandMade run = new HandMade(9, 1).pressure(CYLINDER.key(), t -> 20);
        ConditionWatch raw = ConditionWatch.of(ABOVE, 0, run);
        raw.advance();
        assertThat(raw.firstBeganUs()).isPresent();
        assertThat(stages(ABOVE, run).began()).isEmpty();
    }

    @Test
    void whatHeldAtFirstHasNoBeginningUntilItBeginsAnew() {
        HandMade run = new HandMade(9, 1).pressure(CYLINDER.key(), t -> t < 2 || t > 5 && t < 7 ? 25 : 15);
        assertThat(stages(ABOVE, run).heldAtFirst()).isTrue();
        assertThat(stages(ABOVE, run).began().orElseThrow().atUs() * 1e-6).isCloseTo(5, within(0.005));
        assertThat(stages(ABOVE, run).first(ALL).orElseThrow().seconds()).isCloseTo(2, within(0.01));
    }

    /** Whatever is known while a run is on is what is known at its end. */
    @Test
    void whatWasFoundWhileReportsCameInNeverChanges() {
        HandMade run = new HandMade(9, 3)
                .pressure(CYLINDER.key(), t -> 20.15 - 0.1 * Math.abs(t - 4.5))
                .wire("holding", 1, 1.005, 1.5, 3);
        for (PlannedCondition condition : List.of(ABOVE, WIRE, new PlannedCondition.AllOf(List.of(ABOVE, WIRE)))) {
            Optional<Began> began = stages(condition, run).began();
            Optional<Stage> first = stages(condition, run).first(ALL);
            for (double end = 1; end < 9; end += 0.05) {
                Stages cut = stages(condition, run.until(end));
                if (cut.began().isPresent()) {
                    assertThat(cut.began()).isEqualTo(began);
                }
                if (cut.first(ALL).isPresent()) {
                    assertThat(cut.first(ALL)).isEqualTo(first);
                }
            }
        }
    }

    private static Stages stages(PlannedCondition condition, HandMade run) {
        Stages stages = Stages.of(condition, 0, run, Ease.NONE);
        stages.advance();
        return stages;
    }
}
