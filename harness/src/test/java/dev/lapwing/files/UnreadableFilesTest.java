package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.source.Mistake;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that cannot be, or are never, read. */
class UnreadableFilesTest {
    @TempDir
    private Path folder;

    @Test
    void aFileThatIsNotThere() {
        assertThat(only(folder.resolve("none.yaml")).found()).startsWith("there is no file '");
    }

    @Test
    void aDirectory() {
        assertThat(only(folder).found()).endsWith("is a directory");
    }

    @Test
    void aFileBelowAFile() throws IOException {
        Path file = Files.writeString(folder.resolve("a.yaml"), "parts: {}", UTF_8);
        assertThat(only(file.resolve("b.yaml")).found()).contains("b.yaml");
    }

    @Test
    void aFileOfFiftyMegabytesIsRefusedByItsSize() throws IOException {
        Path file = folder.resolve("large.yaml");
        try (RandomAccessFile large = new RandomAccessFile(file.toFile(), "rw")) {
            large.setLength(50_000_000);
        }
        Mistake mistake = only(file);
        assertThat(mistake.found()).endsWith("is too large: 50.0 MB");
        assertThat(mistake.expected()).isEqualTo("at most 3 MB");
    }

    @Test
    void aFileOfJustTheLargestSizeIsRead() throws IOException {
        String start = "parts:\n  rest:\n    - wait: 3 s\n#";
        String comment = ("x".repeat(98) + "\n#").repeat(TextFile.BYTES_MAX / 100);
        Path file = folder.resolve("just.yaml");
        Files.writeString(file, start + comment.substring(start.length()), UTF_8);
        assertThat(FileKind.check(file).mistakes()).isEmpty();

        Files.writeString(file, start + comment.substring(start.length() - 1), UTF_8);
        assertThat(only(file).found()).contains("is too large");
    }

    @Test
    void aByteOrderMarkIsNoMistake() throws IOException {
        Path file = Files.writeString(folder.resolve("bom.yaml"), "\uFEFFparts:\n  rest:\n    - wait: 3\n", UTF_8);
        assertThat(only(file).place().column()).isEqualTo(13);
    }

    @Test
    void aTextWithAColonInBracketsIsToldToBePutInQuotes() throws IOException {
        Path file = Files.writeString(
                folder.resolve("colon.yaml"), "fixture: x\nfigures: {it: {at-most: 5 psi, source: HLR: 4.1}}\n", UTF_8);
        assertThat(only(file).hint()).isEqualTo("put a text that holds ': ' in quotes");
    }

    @Test
    void windowsLineEndsAreNoMistake() throws IOException {
        String text = Files.readString(Good.BENCH, UTF_8).replace("\n", "\r\n");
        Path file = Files.writeString(folder.resolve("bench.yaml"), text, UTF_8);
        assertThat(BenchFiles.load(file).mistakes()).isEmpty();
    }

    @Test
    void manyMistakesAreAllReported() throws IOException {
        Path file = folder.resolve("many.yaml");
        Files.writeString(file, "parts:\n  rest:\n" + "    - wait: 3\n".repeat(5_000), UTF_8);
        assertThat(FileKind.check(file).mistakes()).hasSize(5_000);
    }

    @Test
    void aLongWordIsCutWhereItIsShown() throws IOException {
        Path file = Files.writeString(folder.resolve("long.yaml"), "parts:\n  " + "x".repeat(900) + ": 3\n", UTF_8);
        assertThat(FileKind.check(file).mistakes())
                .allSatisfy(mistake -> assertThat(
                                mistake.toString().length() - file.toString().length())
                        .isLessThan(300));
    }

    private static Mistake only(Path path) {
        List<Mistake> mistakes = FileKind.check(path).mistakes();
        assertThat(mistakes).hasSize(1);
        assertThat(mistakes.get(0).place().file()).isEqualTo(path.toString());
        return mistakes.get(0);
    }
}
