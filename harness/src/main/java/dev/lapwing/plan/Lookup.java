package dev.lapwing.plan;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.finding.Limit;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Operand;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.util.Optional;
import java.util.OptionalDouble;

/** Everything that a name in a sequence may refer to, and the mistakes found while looking names up. */
record Lookup(
        Subject subject,
        FigureText text,
        SignalText spoken,
        Figures figures,
        Connections connections,
        Signals signals,
        Conditions conditions,
        Mistakes mistakes) {

    static Lookup of(Subject subject, BenchFile bench, PressureDisplay pressures) {
        int vehicles = subject.wiring().vehicles();
        Mistakes mistakes = new Mistakes();
        FigureText text = new FigureText(subject.acceptance(), pressures);
        Figures figures = new Figures(subject, text, mistakes);
        Connections connections = new Connections(bench, text, mistakes);
        Signals signals = new Signals(subject.wiring(), connections, mistakes);
        Conditions conditions = new Conditions(vehicles, signals, figures, connections, mistakes);
        return new Lookup(
                subject, text, new SignalText(text, vehicles), figures, connections, signals, conditions, mistakes);
    }

    void mistake(Place place, String found, String expected, String hint) {
        mistakes.add(place, found, expected, hint);
    }

    /** A limit in time of a signal that rises or falls. How soon the pipe falls is never left to the simple rule. */
    Limit time(Signal signal, boolean rising, Operand within, Scope scope) {
        Limit limit = figures.limit(within, scope, Dimension.TIME);
        boolean pipe = signal instanceof Signal.Pressure pressure && pressure.kind() == PressureKind.BRAKE_PIPE;
        if (pipe && !rising && !limit.figure().isEmpty() && !limit.rule().guards()) {
            mistake(
                    within.place(),
                    "'" + limit.figure() + "' (" + limit.place()
                            + ") goes by the simple rule, and says here how soon the brake pipe falls",
                    "a figure that goes by the guarded rule",
                    "a dump time is never judged by the simple rule");
        }
        return limit;
    }

    /** How long something is watched; empty for the time of the steps around it, if there are any. */
    OptionalDouble over(Optional<Operand> over, Scope scope, Place place, boolean lasting) {
        if (over.isPresent()) {
            return OptionalDouble.of(figures.stretch(over.get(), scope));
        }
        if (!lasting) {
            mistake(
                    place,
                    "nothing says how long this is watched",
                    "a time, such as 'over: 5 s'",
                    "or a meanwhile with the steps during which it must hold");
        }
        return OptionalDouble.empty();
    }

    /** The time in s over which a signal is averaged, which must hold some of its samples. */
    double averaged(Signal signal, Operand operand, Scope scope) {
        double over = figures.stretch(operand, scope);
        connections.sampledOften(signal, over, operand.place());
        return over;
    }

    /** A limit of a difference of two readings of a signal. */
    Limit difference(Signal signal, Operand operand, Scope scope) {
        Limit limit = figures.limit(operand, scope, signal.dimension());
        connections.measurableDifference(signal, limit, operand.place());
        return limit;
    }
}
