package dev.lapwing.files;

import dev.lapwing.files.Node.Entries;
import dev.lapwing.files.Node.Entry;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Lays a fixture over the one that it is based on: maps merge key by key, all else is replaced. A figure that states a
 * value or a limit of its own replaces the other whole, so that no limit travels with another limit's source.
 */
final class Overlay {
    private Overlay() {}

    /** Both as one tree, in which every value keeps its own place and file. */
    static Node merged(Node under, Node over) {
        if (!(under instanceof Entries below) || !(over instanceof Entries above) || isFigure(above)) {
            return over;
        }
        List<Entry> merged = new ArrayList<>();
        for (Entry entry : below.entries()) {
            Optional<Entry> replacing = above.entry(entry.key());
            merged.add(replacing
                    .map(by -> new Entry(by.key(), by.place(), merged(entry.value(), by.value())))
                    .orElse(entry));
        }
        above.entries().stream()
                .filter(entry -> below.entry(entry.key()).isEmpty())
                .forEach(merged::add);
        return new Entries(merged, above.place());
    }

    private static boolean isFigure(Entries map) {
        return map.entries().stream().anyMatch(entry -> Shapes.FIGURE_KINDS.contains(entry.key()));
    }
}
