package dev.lapwing.challenge;

import dev.lapwing.challenge.Question.Kind;
import dev.lapwing.finding.Limit;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/** Questions of one scene as they are put together. */
final class Asked {
    private final String scene;
    private final List<Question> all = new ArrayList<>();

    /** @param scene name of the scene */
    Asked(String scene) {
        this.scene = scene;
    }

    List<Question> all() {
        return List.copyOf(all);
    }

    /** All signals that any of them looks at. */
    static List<Signal> signals(List<Question> questions) {
        Set<Signal> signals = new LinkedHashSet<>();
        questions.forEach(question -> signals.addAll(question.check().signals()));
        return List.copyOf(signals);
    }

    void value(String name, String stimulus, Check check) {
        add(name, stimulus, Kind.VALUE, check);
    }

    void add(String name, String stimulus, Kind kind, Check check) {
        all.add(new Question(scene, true, name, stimulus, kind, check));
    }

    /** Times to rise above levels in psi; patience in s. */
    void rises(String stimulus, Signal signal, double patience, double... levels) {
        for (double level : levels) {
            crossing(stimulus, signal, true, level, patience);
        }
    }

    /** Times to fall below levels in psi; patience in s. */
    void falls(String stimulus, Signal signal, double patience, double... levels) {
        for (double level : levels) {
            crossing(stimulus, signal, false, level, patience);
        }
    }

    private void crossing(String stimulus, Signal signal, boolean rising, double level, double patience) {
        String name = stimulus + ": " + signal.key().replace("brake-", "") + (rising ? " above " : " below ")
                + Math.round(level) + " psi";
        value(name, stimulus, new Check.Crossing(signal, rising, psi(level), patience, time()));
    }

    static Check level(Signal signal, double settled, double over) {
        return new Check.SettledLevel(signal, 0, settled, over, Optional.empty(), any());
    }

    static Signal cylinder(int vehicle) {
        return new Signal.Pressure(PressureKind.BRAKE_CYLINDER, vehicle);
    }

    static Signal pipe(int vehicle) {
        return new Signal.Pressure(PressureKind.BRAKE_PIPE, vehicle);
    }

    static Signal auxiliary(int vehicle) {
        return new Signal.Pressure(PressureKind.AUXILIARY_RESERVOIR, vehicle);
    }

    static Signal.Wire wire(String name) {
        return new Signal.Wire(name);
    }

    static double psi(double psi) {
        return Unit.PSI.toBase(psi);
    }

    // Nothing is judged here; a check only has to have a limit, and an extreme has to know which end is meant.

    static Limit any() {
        return atMost(100);
    }

    static Limit atMost(double psi) {
        return limit(Dimension.PRESSURE, OptionalDouble.empty(), OptionalDouble.of(psi(psi)));
    }

    static Limit atLeast(double psi) {
        return limit(Dimension.PRESSURE, OptionalDouble.of(psi(psi)), OptionalDouble.empty());
    }

    static Limit rate() {
        return limit(Dimension.PRESSURE_RATE, OptionalDouble.empty(), OptionalDouble.of(psi(1)));
    }

    static Limit time() {
        return limit(Dimension.TIME, OptionalDouble.empty(), OptionalDouble.of(1000));
    }

    static Limit notLate() {
        return limit(Dimension.TIME, OptionalDouble.of(0), OptionalDouble.empty());
    }

    static Limit times() {
        return limit(Dimension.COUNT, OptionalDouble.empty(), OptionalDouble.of(100));
    }

    static Limit speed() {
        return limit(Dimension.SPEED, OptionalDouble.empty(), OptionalDouble.of(1e4));
    }

    private static Limit limit(Dimension dimension, OptionalDouble lower, OptionalDouble upper) {
        return new Limit(
                "none", dimension, lower, upper, DecisionRule.GUARDED, OptionalDouble.empty(), "coverage study", "");
    }
}
