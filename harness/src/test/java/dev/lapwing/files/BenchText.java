package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A bench file of a test that has no mistake, read as it is or with one put into it.
 *
 * @param folder where it is written
 * @param good   its text
 */
record BenchText(Path folder, String good) {

    Loaded<BenchFile> read(String text) throws IOException {
        Path file = folder.resolve("bench.yaml");
        Files.writeString(file, text, UTF_8);
        return BenchFiles.load(file);
    }

    /** With {@code bad} in place of {@code part} there is a mistake in that line that says so. */
    void refuses(String part, String bad, int line, String words) throws IOException {
        assertThat(good).contains(part);
        assertThat(read(good.replace(part, bad)).mistakes()).as(bad).anySatisfy(mistake -> {
            assertThat(mistake.place().line()).isEqualTo(line);
            assertThat(mistake.toString()).contains(words);
        });
    }
}
