package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every piece of a tree says where it really stands: the text at its place is its text. */
class PlacesTest {
    static List<Path> files() {
        return Stream.concat(Good.ALL.stream(), ShippedFilesTest.shipped().stream())
                .toList();
    }

    @ParameterizedTest
    @MethodSource("files")
    void theTextAtAPlaceIsThePiece(Path path) throws IOException {
        String text = Files.readString(path, UTF_8);
        Node root = YamlTree.of(path.toString(), text, new Mistakes()).orElseThrow();
        assertThat(check(root, text.lines().toList())).isGreaterThan(5);
    }

    /** Number of pieces that were looked at. */
    private static int check(Node node, List<String> lines) {
        int checked = 1;
        if (node instanceof Node.Scalar scalar) {
            String there = at(scalar.place(), lines);
            if (!there.startsWith(">") && !there.startsWith("\"")) {
                assertThat(there).startsWith(scalar.text());
            }
        } else if (node instanceof Node.Items items) {
            assertThat(at(items.place(), lines)).matches("[\\[-].*");
            for (Node item : items.nodes()) {
                checked += check(item, lines);
            }
        } else if (node instanceof Node.Entries entries) {
            for (Node.Entry entry : entries.entries()) {
                assertThat(at(entry.place(), lines)).startsWith(entry.key() + ":");
                checked += check(entry.value(), lines);
            }
        }
        return checked;
    }

    private static String at(Place place, List<String> lines) {
        String line = lines.get(place.line() - 1);
        return line.substring(line.offsetByCodePoints(0, place.column() - 1));
    }
}
