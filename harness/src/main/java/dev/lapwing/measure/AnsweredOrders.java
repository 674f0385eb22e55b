package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Always.Case;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Throughout;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.MovingMean;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Whether an order that is read on the wires reaches the train. Where no cylinder at all answers, with the supply good
 * and air there, the bench's own wiring or air is suspected before the unit. One cylinder that does not answer says
 * nothing of the bench.
 */
final class AnsweredOrders {
    /** A cylinder above this, in Pa (5 psi), has been answered to already. Common practice, no source. */
    private static final double FILLED = 34_474;
    /** A rise of this, in Pa (2 psi), is an answer. Common practice, no source. */
    private static final double ANSWER = 13_790;
    /** Air to fill a cylinder from, in Pa (20 psi). Common practice, no source. */
    private static final double AIR_LEAST = 137_895;
    /** Share of the nominal supply that the valves work with (EN 50155). */
    private static final double SUPPLY_LEAST = 0.7;

    private final Always run;

    AnsweredOrders(Always run) {
        this.run = run;
    }

    List<Case> orders(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        List<Signal> cylinders = run.pressures(PressureKind.BRAKE_CYLINDER);
        List<Window> application = run.on("application").orElse(List.of());
        List<Window> holding = run.on("holding").orElse(List.of());
        List<Case> cases = new ArrayList<>();
        for (Window order : Stretches.both(application, holding)) {
            if (!cylinders.isEmpty() && couldBeAnswered(order)) {
                cases.add(new Case(answered(order, cylinders), limit));
            }
        }
        return cases;
    }

    private boolean couldBeAnswered(Window order) {
        Signal supply = new Signal.SupplyVoltage("ep");
        boolean supplied = extremes(supply, order)
                .filter(e -> e.least() >= SUPPLY_LEAST * run.plan().wiring().nominalVolts())
                .isPresent();
        List<Signal> air = new ArrayList<>(run.pressures(PressureKind.SUPPLY_RESERVOIR));
        air.addAll(run.pressures(PressureKind.MAIN_RESERVOIR_PIPE));
        return supplied
                && air.stream()
                        .anyMatch(signal -> extremes(signal, order)
                                .filter(e -> e.least() >= AIR_LEAST)
                                .isPresent());
    }

    private Optional<Extremes> extremes(Signal signal, Window window) {
        return run.recording()
                .sampled(signal)
                .flatMap(sampled -> Extremes.of(sampled.trace(), window, Watched.WIDTH_US));
    }

    private Measurement answered(Window order, List<Signal> all) {
        String quantity = "longest order of the application and holding wires without an answer of any cylinder";
        Optional<Doubt> unknown = begun("application", order).or(() -> begun("holding", order));
        if (unknown.isPresent()) {
            return unknown.get().of(quantity, order);
        }
        List<Doubt> doubts = new ArrayList<>();
        List<Signal> cylinders = new ArrayList<>();
        for (Signal cylinder : all) {
            // A count that jumps and stays is the word of a dead transducer, and no answer.
            Optional<Doubt> dead =
                    Doubt.transducer(cylinder, run.recording().sampled(cylinder).orElseThrow(), order, run.words());
            dead.ifPresentOrElse(doubts::add, () -> cylinders.add(cylinder));
        }
        if (cylinders.isEmpty()) {
            return doubts.get(0).of(quantity, order);
        }
        long untilUs = order.toUs();
        Optional<Signal> first = Optional.empty();
        for (Signal cylinder : cylinders) {
            long answered = answeredUs(cylinder, order);
            if (answered < untilUs) {
                untilUs = answered;
                first = Optional.of(cylinder);
            }
        }
        double seconds = (untilUs - order.fromUs()) * 1e-6;
        List<Component> parts = new ArrayList<>();
        Optional<Instrument> wire =
                run.recording().switched(new Signal.Wire("application")).map(Switched::instrument);
        wire.ifPresent(instrument -> {
            parts.add(stamp(instrument, "start"));
            parts.add(Timing.clock(instrument, seconds));
        });
        Window waited = new Window(order.fromUs(), untilUs);
        first.map(cylinder -> answer(cylinder, waited, cylinders))
                .or(() -> wire.map(instrument -> List.of(stamp(instrument, "end"))))
                .ifPresent(parts::addAll);
        return new Measured(new Estimate(seconds, Dimension.TIME, parts), quantity, marks(order, cylinders), order);
    }

    private static List<Mark> marks(Window order, List<Signal> cylinders) {
        List<Mark> marks = new ArrayList<>();
        for (String driven : List.of("application", "holding")) {
            marks.add(new Mark(new Signal.Wire(driven).key(), order.fromUs(), 1, "ordered"));
        }
        cylinders.forEach(cylinder -> marks.add(new Mark(cylinder.key(), order.fromUs(), 0, "")));
        return marks;
    }

    /** A wire that was found on after reports of it were lost went on at a time that nobody knows. */
    private Optional<Doubt> begun(String wire, Window order) {
        Window about = new Window(order.fromUs() - 1, order.fromUs());
        return Doubt.lost(new Signal.Wire(wire), about, run.recording(), run.words());
    }

    private static Component stamp(Instrument wire, String end) {
        return Component.of(
                "stamp/" + wire.point() + "/" + end, 1, Input.within(wire.stampBoundUs() * 1e-6, Dimension.TIME));
    }

    /** When the mean of the readings answered: the air did so within the mean's width, or the sample, before. */
    private List<Component> answer(Signal signal, Window waited, List<Signal> cylinders) {
        Sampled cylinder = run.recording().sampled(signal).orElseThrow();
        double lag = (Watched.WIDTH_US + cylinder.everyUs()) * 1e-6;
        String point = cylinder.instrument().point();
        List<Component> parts = new ArrayList<>(Timing.instant(cylinder.instrument(), 1));
        parts.add(Component.of("mean of " + point, 1, Input.within(lag, Dimension.TIME)));
        double unseen = unseenSeconds(waited, cylinders);
        if (unseen > 0) {
            parts.add(Component.of("unseen/" + point, 1, Input.within(unseen, Dimension.TIME)));
        }
        return parts;
    }

    /** For how long before it any of them may have answered without being seen, at the most. */
    private double unseenSeconds(Window waited, List<Signal> cylinders) {
        return Unseen.in(waited, cylinders, run.recording()).bySignal().values().stream()
                .mapToDouble(spans -> (waited.toUs() - Math.max(waited.fromUs(), spans.fromUs(0))) * 1e-6)
                .max()
                .orElse(0);
    }

    /** When that cylinder has answered; the order's end if it has not. */
    private long answeredUs(Signal cylinder, Window order) {
        MovingMean mean = new MovingMean(
                run.recording().sampled(cylinder).orElseThrow().trace(), Watched.WIDTH_US, order.fromUs());
        double first = Double.NaN;
        while (mean.advance(order.toUs())) {
            first = Double.isNaN(first) ? mean.value() : first;
            if (mean.value() > FILLED || mean.value() > first + ANSWER) {
                return mean.timeUs();
            }
        }
        return order.toUs();
    }
}
