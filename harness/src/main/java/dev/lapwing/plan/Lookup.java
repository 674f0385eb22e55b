package dev.lapwing.plan;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;

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
        Conditions conditions = new Conditions(vehicles, signals, figures, connections);
        return new Lookup(
                subject, text, new SignalText(text, vehicles), figures, connections, signals, conditions, mistakes);
    }

    void mistake(Place place, String found, String expected, String hint) {
        mistakes.add(place, found, expected, hint);
    }
}
