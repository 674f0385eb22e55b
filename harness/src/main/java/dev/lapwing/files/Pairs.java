package dev.lapwing.files;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads lists of pairs of figures, such as the points of a law or of a calibration. */
final class Pairs {
    private final Reading reading;
    private final Figures figures;

    Pairs(Reading reading) {
        this.reading = reading;
        this.figures = new Figures(reading);
    }

    /** Two figures, and where the pair and its second figure stand. */
    record Pair(Quantity left, Quantity right, Place place, Place rightPlace) {}

    /** What is due on one side of a pair. */
    record Side(Range range, Dimension... allowed) {
        static Side of(Dimension dimension) {
            return new Side(Range.of(dimension), dimension);
        }
    }

    /** At least two pairs; empty, with mistakes, if any of them could not be read. */
    Optional<List<Pair>> pairs(Node node, Side left, Side right, String expected) {
        List<Node> items = reading.items(node, expected);
        List<Pair> pairs = new ArrayList<>();
        for (Node item : items) {
            pair(item, left, right).ifPresent(pairs::add);
        }
        if (items.size() == 1) {
            reading.mistake(node.place(), "one point alone", "at least two points", "");
        }
        return items.size() < 2 || pairs.size() < items.size() ? Optional.empty() : Optional.of(pairs);
    }

    private Optional<Pair> pair(Node item, Side left, Side right) {
        List<Node> two = reading.items(item, "a pair of figures in brackets");
        if (two.size() != 2) {
            if (!two.isEmpty()) {
                reading.mistake(item.place(), two.size() + " figures stand here", "a pair of figures in brackets", "");
            }
            return Optional.empty();
        }
        Optional<Quantity> first = figure(two.get(0), left);
        Optional<Quantity> second = figure(two.get(1), right);
        return first.flatMap(
                f -> second.map(s -> new Pair(f, s, item.place(), two.get(1).place())));
    }

    private Optional<Quantity> figure(Node node, Side side) {
        Dimension[] allowed = side.allowed();
        return allowed.length == 0
                ? reading.scalar(node, Figures.examples()).flatMap(s -> figures.parse(s.text(), s.place()))
                : figures.figure(node, side.range(), allowed);
    }
}
