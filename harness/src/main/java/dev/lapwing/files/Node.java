package dev.lapwing.files;

import dev.lapwing.source.Place;
import java.util.List;
import java.util.Optional;

/** A piece of a YAML file and where it begins. Every scalar is text: what it means is for the model to say. */
sealed interface Node {
    Place place();

    /** What it is, with its article, as a mistake names it. */
    String kind();

    /** A single value; empty text where nothing is written. */
    record Scalar(String text, Place place) implements Node {
        @Override
        public String kind() {
            return text.isEmpty() ? "nothing" : "a single value";
        }
    }

    /** Values in a row. */
    record Items(List<Node> nodes, Place place) implements Node {
        public Items {
            nodes = List.copyOf(nodes);
        }

        @Override
        public String kind() {
            return "a list";
        }
    }

    /** Values by key, in the order of the file; no key stands twice. */
    record Entries(List<Entry> entries, Place place) implements Node {
        public Entries {
            entries = List.copyOf(entries);
        }

        Optional<Entry> entry(String key) {
            return entries.stream().filter(entry -> entry.key().equals(key)).findFirst();
        }

        @Override
        public String kind() {
            return "a map";
        }
    }

    /** Something already reported as a mistake; whoever meets it says nothing more. */
    record Refused(Place place) implements Node {
        @Override
        public String kind() {
            return "something not read";
        }
    }

    /** A key, where it stands, and its value. */
    record Entry(String key, Place place, Node value) {}
}
