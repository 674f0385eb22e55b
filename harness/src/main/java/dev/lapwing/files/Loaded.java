package dev.lapwing.files;

import dev.lapwing.source.Mistake;
import dev.lapwing.source.Mistakes;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * What came of reading a file and whatever it includes or is based on.
 *
 * @param value    the model; there if and only if there is no mistake
 * @param mistakes every mistake found, file by file in the order of reading, line by line in each
 * @param files    every file that was read or tried, the one asked for first
 */
public record Loaded<T>(Optional<T> value, List<Mistake> mistakes, List<Path> files) {
    public Loaded {
        mistakes = List.copyOf(mistakes);
        files = List.copyOf(files);
        if (value.isPresent() != mistakes.isEmpty()) {
            throw new IllegalArgumentException("a value and mistakes exclude each other");
        }
    }

    /** Stands for what could not be read; nobody asks for it, since a mistake has been reported. */
    static <T> Supplier<T> never() {
        return () -> {
            throw new IllegalStateException("what has a mistake is not made");
        };
    }

    /** The value that {@code build} makes, which is asked only if there is no mistake. */
    static <T> Loaded<T> of(Mistakes mistakes, List<Path> files, Supplier<T> build) {
        if (mistakes.isEmpty()) {
            return new Loaded<>(Optional.of(build.get()), List.of(), files);
        }
        List<String> order = files.stream().map(Path::toString).toList();
        List<Mistake> sorted = new ArrayList<>(mistakes.all());
        sorted.sort(Comparator.comparingInt(
                        (Mistake mistake) -> order.indexOf(mistake.place().file()))
                .thenComparingInt(mistake -> mistake.place().line())
                .thenComparingInt(mistake -> mistake.place().column()));
        return new Loaded<>(Optional.empty(), sorted, files);
    }
}
