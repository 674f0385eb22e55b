package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Switching;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** When and how often wires switch. */
final class WireTimes {
    private static final int MARKS_MAX = 20;

    private final Sight sight;

    WireTimes(Sight sight) {
        this.sight = sight;
    }

    Measurement switches(Check.WireSwitches check) {
        String state = check.on() ? "on" : "off";
        Window planned = sight.between(0, check.patience());
        String quantity = "time for " + check.wire().spoken() + " to switch " + state;
        Optional<Switched> switched = sight.recording().switched(check.wire());
        if (switched.isEmpty()) {
            return sight.doubt(check.wire(), planned).orElseThrow().of(quantity, planned);
        }
        Edges edges = switched.get().edges();
        Window search = search(planned, sight.stimulusBoundUs(), switched.get());
        OptionalLong at = Switching.first(
                edges, check.on(), search, Timing.BOUNCE_US, sight.seen().closedUs());
        // A wire that leaves the state and comes back to it does switch to it; one that stays there does not.
        if (at.isEmpty() && edges.at(search.fromUs() - 1) == check.on()) {
            return new Doubt(
                            check.wire().spoken() + " was " + state + " already before the stimulus",
                            "let it start from the other state")
                    .of(quantity, planned);
        }
        Window looked = new Window(
                planned.fromUs(), at.isPresent() ? Math.max(planned.fromUs(), at.getAsLong()) : planned.toUs());
        Optional<Doubt> doubt = (at.isPresent() ? Optional.<Doubt>empty() : sight.cutShort(planned.toUs()))
                .or(() -> sight.doubt(check.wire(), looked));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, looked);
        }
        if (at.isEmpty()) {
            return never(check, state, quantity, planned);
        }
        double seconds = (at.getAsLong() - sight.originUs()) * 1e-6;
        Estimate time = Timing.sinceStimulus(
                seconds, sight.stimulusBoundUs(), switched.get().instrument(), List.of());
        Mark mark = new Mark(check.wire().key(), at.getAsLong(), check.on() ? 1 : 0, "switches " + state);
        return new Measured(time, quantity, List.of(mark), looked);
    }

    /** An edge and the stimulus may each be stamped wrong by their bound: the one may seem to come before the other. */
    static Window search(Window planned, long stimulusBoundUs, Switched switched) {
        long looseUs = stimulusBoundUs + switched.instrument().stampBoundUs();
        return new Window(planned.fromUs() - looseUs, planned.toUs());
    }

    private Measurement never(Check.WireSwitches check, String state, String quantity, Window planned) {
        String clause = check.wire().spoken() + " did not switch " + state + " and stay so within "
                + sight.words().value(check.patience(), Dimension.TIME);
        return new NeverHappened(clause, Optional.empty(), 0, quantity, List.of(), planned);
    }

    Measurement pulses(Check.Pulses check) {
        Window window = sight.over(check.over());
        String quantity = "number of times that " + check.wire().spoken() + " came on";
        Optional<Switched> switched = sight.recording().switched(check.wire());
        if (switched.isEmpty()) {
            return sight.doubt(check.wire(), window).orElseThrow().of(quantity, window);
        }
        Edges edges = switched.get().edges();
        Window looked = new Window(
                window.fromUs(),
                Math.max(window.fromUs(), Math.min(window.toUs(), sight.seen().closedUs())));
        int count = Switching.pulses(edges, looked);
        Estimate estimate = new Estimate(count, Dimension.COUNT, List.of());
        boolean outside = check.limit().upper().isPresent()
                && count > check.limit().upper().getAsDouble();
        Optional<Doubt> doubt =
                outside ? Optional.empty() : sight.unfinished(check.over()).or(() -> sight.doubt(check.wire(), window));
        return doubt.<Measurement>map(d -> d.of(quantity, window))
                .orElseGet(() -> new Measured(estimate, quantity, marks(check, edges, looked), looked));
    }

    private static List<Mark> marks(Check.Pulses check, Edges edges, Window window) {
        List<Mark> marks = new ArrayList<>();
        for (int i = edges.firstAfter(window.fromUs() - 1); i < edges.size() && marks.size() < MARKS_MAX; i++) {
            if (edges.timeUs(i) <= window.toUs() && edges.level(i)) {
                marks.add(new Mark(check.wire().key(), edges.timeUs(i), 1, "on"));
            }
        }
        return marks;
    }
}
