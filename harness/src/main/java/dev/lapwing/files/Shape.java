package dev.lapwing.files;

import java.util.List;
import java.util.stream.Stream;

/**
 * The keys that a map has, as data: the readers go by it, and the JSON Schemas are held against it.
 *
 * @param name     what the map is, as a mistake names it
 * @param required keys that must stand
 * @param optional keys that may stand
 */
record Shape(String name, List<String> required, List<String> optional) {
    static Shape of(String name) {
        return new Shape(name, List.of(), List.of());
    }

    Shape must(String... keys) {
        return new Shape(name, List.of(keys), optional);
    }

    Shape may(String... keys) {
        return new Shape(
                name,
                required,
                Stream.concat(optional.stream(), Stream.of(keys)).toList());
    }

    List<String> keys() {
        return Stream.concat(required.stream(), optional.stream()).toList();
    }
}
