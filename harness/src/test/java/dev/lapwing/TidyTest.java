package dev.lapwing;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Rules on the sources as text. An exception stands in this file, with its reason, or there is none. */
class TidyTest {

    private static final int FILE_LINES_MAX = 400;
    private static final int METHOD_LINES_MAX = 40;
    private static final int COLUMNS_MAX = 120;

    /** File name to the reason why it may be longer. */
    private static final Map<String, String> LONGER_FILES = Map.of();

    /** {@code File.java:method} to the reason why it may be longer. */
    private static final Map<String, String> LONGER_METHODS = Map.of();

    private static final Pattern UNFINISHED =
            Pattern.compile("\\b(TO" + "DO|FIX" + "ME|X" + "XX)\\b|(?i:not implemented)|(?i:\\bplaceholder\\b)");

    private static final Pattern SWITCHED_OFF = Pattern.compile("@Disabled|@Ignore\\b");

    private static final List<Source> SOURCES = sources();

    private record Source(Path path, String text) {
        String file() {
            return path.getFileName().toString();
        }

        List<String> lines() {
            return text.lines().toList();
        }

        boolean isTest() {
            return path.startsWith("harness/src/test");
        }
    }

    @Test
    void theseRulesSawTheSources() {
        assertThat(SOURCES).hasSizeGreaterThan(900);
    }

    @Test
    void aFileHoldsOneIdea() {
        none(source -> source.lines().size() > FILE_LINES_MAX && !LONGER_FILES.containsKey(source.file())
                ? List.of(source.path + ": " + source.lines().size() + " lines, at most " + FILE_LINES_MAX)
                : List.of());
    }

    @Test
    void aMethodFitsOnAScreen() {
        none(source -> JavaText.of(source.text).methods().stream()
                .filter(method -> method.lines() > METHOD_LINES_MAX)
                .filter(method -> !LONGER_METHODS.containsKey(source.file() + ":" + method.name()))
                .map(method -> source.path + ":" + method.line() + ": " + method.name() + " has " + method.lines()
                        + " lines, at most " + METHOD_LINES_MAX)
                .toList());
    }

    @Test
    void aLineFitsBesideAnother() {
        none(source -> linesThat(source, line -> line.length() > COLUMNS_MAX, "is longer than " + COLUMNS_MAX));
    }

    @Test
    void nothingIsLeftForLater() {
        none(source -> source.file().equals("TidyTest.java")
                ? List.of()
                : linesThat(source, line -> UNFINISHED.matcher(line).find(), "leaves something for later"));
    }

    @Test
    void noTestIsSwitchedOff() {
        none(source -> source.isTest() && !source.file().equals("TidyTest.java")
                ? linesThat(source, line -> SWITCHED_OFF.matcher(line).find(), "switches a test off")
                : List.of());
    }

    /** With the library's own defaults it fails by what another test lets its threads throw, or after ten seconds. */
    @Test
    void whoeverWaitsHasPatience() {
        none(source -> source.isTest()
                        && !Set.of("Patience.java", "TidyTest.java").contains(source.file())
                ? linesThat(
                        source, line -> line.contains("org.awaitility.Awaitility"), "waits otherwise than by Patience")
                : List.of());
    }

    @Test
    void everyOutsideCheckNamesItsSource() {
        none(source -> source.file().endsWith("ReferenceTest.java") && !source.text.contains("ource:")
                ? List.of(source.path + ": names no published source ('Source: document, edition, page')")
                : List.of());
    }

    @Test
    void everyPackageSaysWhatIsInIt() {
        assertThat(SOURCES.stream()
                        .filter(source -> source.path.startsWith("harness/src/main"))
                        .map(source -> source.path.resolveSibling("package-info.java"))
                        .distinct()
                        .filter(info -> !Files.exists(info) || !read(info).contains("@NullMarked")))
                .as("package-info.java with a comment and @NullMarked is missing")
                .isEmpty();
    }

    @Test
    void theScanFindsMethodsAndTheirLength() {
        JavaText text = JavaText.of("""
                class A {
                    String brace = "{";
                    Runnable r = () -> {
                    };
                    enum E { ONE { @Override int f() { return 1; } }; abstract int f(); }
                    // void no() {
                    A(int x) throws Error {
                        if (x > '}') {
                        }
                    }
                    record R(int a) { R { } }
                    Object o = new Object() {
                        @Override public String toString() {
                            return "";
                        }
                    };
                }
                """);
        assertThat(text.methods())
                .containsExactly(
                        new JavaText.Method("f", 5, 1),
                        new JavaText.Method("A", 7, 4),
                        new JavaText.Method("toString", 13, 3));
    }

    private static void none(Function<Source, List<String>> complaints) {
        assertThat(SOURCES.stream().flatMap(source -> complaints.apply(source).stream()))
                .isEmpty();
    }

    private static List<String> linesThat(Source source, Predicate<String> offend, String how) {
        List<String> lines = source.lines();
        return IntStream.range(0, lines.size())
                .filter(i -> offend.test(lines.get(i)))
                .mapToObj(i -> source.path + ":" + (i + 1) + ": " + how)
                .toList();
    }

    private static List<Source> sources() {
        List<Source> sources = new ArrayList<>();
        try (Stream<Path> tree = Files.walk(Path.of("harness/src"))) {
            tree.filter(path -> path.toString().endsWith(".java"))
                    .sorted()
                    .forEach(path -> sources.add(new Source(path, read(path))));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return sources;
    }

    private static String read(Path path) {
        try {
            return Files.readString(path, UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
