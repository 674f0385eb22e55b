package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.measure.Stages.Stage;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** How long conditions hold: the stages of a warning, the length of an interruption. */
final class Durations {
    private static final Doubt BARELY = new Doubt(
            "a level was passed by less than its uncertainty, so that it cannot be told how long it held",
            CloseBy.MEND);

    private final Sight sight;

    Durations(Sight sight) {
        this.sight = sight;
    }

    Measurement lasts(Check.Duration check) {
        Window window = sight.between(0, check.patience());
        String quantity = "how long it held";
        Stages stages = stages(check.condition(), Ease.NONE);
        Optional<Stage> held = stages.first(window);
        Window looked =
                held.map(stage -> new Window(window.fromUs() - 1, stage.toUs())).orElse(window);
        Optional<Doubt> doubt = (held.isPresent() ? Optional.<Doubt>empty() : sight.cutShort(window.toUs()))
                .or(() -> sight.doubt(check.condition(), looked));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, looked);
        }
        List<Stage> others = Stream.of(Ease.PERHAPS, Ease.SURELY)
                .flatMap(ease -> stages(check.condition(), ease).first(window).stream())
                .toList();
        if (held.isEmpty()) {
            return nearly(stages(check.condition(), Ease.AT_ALL).first(window), check)
                    .<Measurement>map(near -> near.of(quantity, looked))
                    .orElseGet(() -> neverEnded(stages, window, quantity, check));
        }
        Stage stage = held.get();
        double seconds = stage.seconds();
        if (others.size() < 2 && check.limit().margin(seconds) >= 0) {
            return BARELY.of(quantity, looked);
        }
        Estimate end = new Estimate(seconds, Dimension.TIME, stages.watch().doubts(stage.fall(), seconds));
        Estimate start = new Estimate(0, Dimension.TIME, stages.watch().doubts(stage.rise(), 0));
        Estimate lasted = end.minus(start);
        double off = others.stream()
                .mapToDouble(other -> Math.abs(other.seconds() - seconds))
                .max()
                .orElse(0);
        Estimate told =
                CloseBy.of(lasted, off, "level close by").map(lasted::with).orElse(lasted);
        return new Measured(told, quantity, marks(check.signals().get(0), stage), looked);
    }

    /** With every level easier or harder to reach. */
    private Stages stages(PlannedCondition condition, Ease ease) {
        Stages stages = Stages.of(condition, sight.originUs() - 1, sight.recording(), ease);
        stages.advance();
        return stages;
    }

    /** What did not begin or end by less than its doubt may have lasted as it should. */
    private static Optional<Doubt> nearly(Optional<Stage> perhaps, Check.Duration check) {
        return perhaps.filter(other -> check.limit().margin(other.seconds()) >= 0)
                .map(other -> new Doubt(
                        "a level was missed by less than its uncertainty, so that it cannot be told whether it held",
                        CloseBy.MEND));
    }

    private Measurement neverEnded(Stages stages, Window window, String quantity, Check.Duration check) {
        String within = " within " + sight.words().value(check.patience(), Dimension.TIME);
        boolean began =
                stages.began().filter(one -> one.atUs() <= window.toUs()).isPresent();
        if (!began && stages.heldAtFirst()) {
            return new Doubt("it held already before the stimulus", "let it start from the other side")
                    .of(quantity, window);
        }
        return new NeverHappened(
                (began ? "it began to hold and did not end" : "it did not begin to hold") + within,
                Optional.empty(),
                0,
                quantity,
                List.of(),
                window);
    }

    private List<Mark> marks(Signal signal, Stage stage) {
        return List.of(
                new Mark(signal.key(), stage.fromUs(), valueAt(signal, stage.fromUs()), "from here"),
                new Mark(signal.key(), stage.toUs(), valueAt(signal, stage.toUs()), "to here"));
    }

    private double valueAt(Signal signal, long timeUs) {
        return new Conditions(sight).valueAt(signal, timeUs);
    }
}
