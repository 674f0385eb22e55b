package dev.lapwing.files;

import dev.lapwing.files.Node.Entries;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Optional;

/** A map whose keys are known, being read. */
final class Form {
    private final Entries entries;
    private final Shape shape;
    private final Reading reading;

    private Form(Entries entries, Shape shape, Reading reading) {
        this.entries = entries;
        this.shape = shape;
        this.reading = reading;
    }

    static Form of(Entries entries, Shape shape, Reading reading) {
        List<String> known = shape.keys();
        for (Entry entry : entries.entries()) {
            if (!known.contains(entry.key())) {
                reading.unknown(entry.place(), "key", entry.key(), known);
            }
        }
        Form form = new Form(entries, shape, reading);
        for (String key : shape.required()) {
            if (!form.has(key)) {
                reading.mistake(entries.place(), "'" + key + "' is missing in " + shape.name());
            }
        }
        return form;
    }

    boolean has(String key) {
        return entry(key).isPresent();
    }

    /** The value of a key; empty if it is not there, which has been reported where it must be. */
    Optional<Node> value(String key) {
        return entry(key).map(Entry::value);
    }

    /** Where the key stands, or the map if the key is not there. */
    Place place(String key) {
        return entry(key).map(Entry::place).orElse(entries.place());
    }

    Place place() {
        return entries.place();
    }

    /** The text of a key, on one line; empty if there is none. */
    String text(String key, String expected) {
        return value(key).flatMap(node -> reading.text(node, expected)).orElse("");
    }

    private Optional<Entry> entry(String key) {
        if (!shape.required().contains(key) && !shape.optional().contains(key)) {
            throw new IllegalArgumentException(shape.name() + " has no key " + key);
        }
        return entries.entry(key);
    }
}
