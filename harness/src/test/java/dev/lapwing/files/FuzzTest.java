package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.fail;

import dev.lapwing.source.Mistake;
import dev.lapwing.source.Place;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Good files, spoilt at random: no exception escapes, and every mistake stands inside a file that was read. Another
 * base seed with {@code -Dlapwing.seed=N}.
 */
class FuzzTest {
    private static final int ROUNDS = 350;
    private static final String PIECES = ":-#[]{}<>&*!|'\"%@`,?\t\n\r ~0123456789abz.±\u0000\u0085é€𝄞\uFEFF";

    @TempDir
    private Path folder;

    @Test
    void noSpoiltFileBreaksTheReader() throws IOException {
        long seed = Long.getLong("lapwing.seed", 20261001);
        for (Path good : Good.ALL) {
            Files.copy(good, folder.resolve(good.getFileName()));
        }
        for (Path good : Good.ALL) {
            byte[] bytes = Files.readAllBytes(good);
            Path file = folder.resolve(good.getFileName());
            for (int round = 0; round < ROUNDS; round++) {
                SplittableRandom random = new SplittableRandom(seed + 31L * round + good.hashCode());
                Files.write(file, spoilt(bytes, random));
                check(file, good + ", round " + round + ", -Dlapwing.seed=" + seed);
            }
            Files.write(file, bytes);
        }
    }

    private static void check(Path file, String what) throws IOException {
        Loaded<?> loaded;
        try {
            loaded = FileKind.check(file);
        } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
            fail(what + ": " + e, e);
            return;
        }
        Map<String, String[]> lines = new HashMap<>();
        for (Path read : loaded.files()) {
            lines.put(read.toString(), lines(read));
        }
        for (Mistake mistake : loaded.mistakes()) {
            String text = mistake.toString();
            if (!inside(mistake.place(), lines) || text.contains("\n") || text.contains("Exception")) {
                fail(what + ": " + text);
            }
        }
    }

    private static boolean inside(Place place, Map<String, String[]> files) {
        String[] lines = files.getOrDefault(place.file(), new String[0]);
        return place.line() <= lines.length && place.column() <= lines[place.line() - 1].length() + 1;
    }

    private static String[] lines(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return new String[0];
        }
        byte[] bytes = Files.readAllBytes(file);
        String text = new String(bytes, UTF_8);
        // Byte by byte where it is no UTF-8: columns then come out long enough.
        text = text.contains("\uFFFD") ? new String(bytes, ISO_8859_1) : text;
        return text.split("\r\n|[\n\r\u0085\u2028\u2029\u000B\u000C]", -1);
    }

    private static byte[] spoilt(byte[] good, SplittableRandom random) {
        byte[] bytes = good;
        int times = 1 + random.nextInt(4);
        for (int i = 0; i < times; i++) {
            bytes = random.nextBoolean() ? spoiltBytes(bytes, random) : spoiltLines(bytes, random);
        }
        return bytes;
    }

    private static byte[] spoiltBytes(byte[] bytes, SplittableRandom random) {
        if (bytes.length == 0) {
            return bytes;
        }
        StringBuilder text = new StringBuilder(new String(bytes, ISO_8859_1));
        int at = random.nextInt(text.length());
        int piece = PIECES.codePointAt(
                PIECES.offsetByCodePoints(0, random.nextInt(PIECES.codePointCount(0, PIECES.length()))));
        String inserted = new String(Character.toString(piece).getBytes(UTF_8), ISO_8859_1);
        switch (random.nextInt(5)) {
            case 0 -> text.deleteCharAt(at);
            case 1 -> text.insert(at, inserted);
            case 2 -> text.setCharAt(at, (char) random.nextInt(256));
            case 3 -> text.delete(at, Math.min(text.length(), at + random.nextInt(40)));
            default -> text.setLength(at);
        }
        return text.toString().getBytes(ISO_8859_1);
    }

    private static byte[] spoiltLines(byte[] bytes, SplittableRandom random) {
        List<String> lines = new ArrayList<>(List.of(new String(bytes, ISO_8859_1).split("\n", -1)));
        int one = random.nextInt(lines.size());
        int other = random.nextInt(lines.size());
        switch (random.nextInt(5)) {
            case 0 -> lines.remove(one);
            case 1 -> lines.add(one, lines.get(other));
            case 2 -> Collections.swap(lines, one, other);
            case 3 -> lines.set(one, "  " + lines.get(one));
            default -> lines.set(one, lines.get(one).replace("  ", "\t"));
        }
        return String.join("\n", lines).getBytes(ISO_8859_1);
    }
}
