package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.yaml.snakeyaml.reader.StreamReader;

/** Reads a whole file as text, and refuses at once what cannot be one of ours. */
final class TextFile {
    /** Larger files are refused before they are read: ours have some kilobytes. */
    static final int BYTES_MAX = 3_000_000;

    private TextFile() {}

    /**
     * The file's text without its byte order mark; empty with a mistake if it has none.
     *
     * @param asked where the file was asked for, which is where it is reported missing
     */
    static Optional<String> read(Path path, Place asked, Mistakes mistakes) {
        if (Files.isDirectory(path)) {
            mistakes.add(asked, "'" + path + "' is a directory", "a file", "");
            return Optional.empty();
        }
        try (InputStream in = Files.newInputStream(path)) {
            byte[] bytes = in.readNBytes(BYTES_MAX + 1);
            if (bytes.length > BYTES_MAX) {
                mistakes.add(asked, "'" + path + "' is too large: " + size(path), "at most 3 MB", "");
                return Optional.empty();
            }
            return text(path.toString(), bytes, mistakes);
        } catch (NoSuchFileException e) {
            mistakes.add(asked, "there is no file '" + path + "'", "", near(path));
        } catch (AccessDeniedException e) {
            mistakes.add(asked, "'" + path + "' may not be read", "", "see to its access rights");
        } catch (IOException e) {
            mistakes.add(asked, "'" + path + "' cannot be read", "", "");
        }
        return Optional.empty();
    }

    /** The file beside it that was probably meant. */
    private static String near(Path path) {
        Path name = path.getFileName();
        if (name == null) {
            return "";
        }
        try (Stream<Path> beside = Files.list(path.toAbsolutePath().getParent())) {
            List<String> names =
                    beside.map(file -> file.getFileName().toString()).toList();
            return NearestName.hint(name.toString(), names);
        } catch (IOException e) {
            return "";
        }
    }

    private static String size(Path path) throws IOException {
        long bytes = Math.max(Files.size(path), BYTES_MAX + 1L);
        return String.format(Locale.ROOT, "%.1f MB", bytes / 1e6);
    }

    private static Optional<String> text(String file, byte[] bytes, Mistakes mistakes) {
        CharsetDecoder decoder = UTF_8.newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        ByteBuffer in = ByteBuffer.wrap(bytes);
        CharBuffer out = CharBuffer.allocate(bytes.length);
        CoderResult result = decoder.decode(in, out, true);
        String text = out.flip().toString();
        text = text.startsWith("\uFEFF") ? text.substring(1) : text;
        int bad = firstUnprintable(text);
        if (bad < text.length()) {
            notText(file, text.substring(0, bad), text.codePointAt(bad), mistakes);
            return Optional.empty();
        }
        if (result.isError()) {
            notText(file, text, bytes[in.position()] & 0xFF, mistakes);
            return Optional.empty();
        }
        return Optional.of(text);
    }

    private static int firstUnprintable(String text) {
        int at = 0;
        while (at < text.length() && StreamReader.isPrintable(text.codePointAt(at))) {
            at += Character.charCount(text.codePointAt(at));
        }
        return at;
    }

    private static void notText(String file, String before, int code, Mistakes mistakes) {
        String[] lines = before.split("\\R", -1);
        String last = lines[lines.length - 1];
        Place place = new Place(file, lines.length, last.codePointCount(0, last.length()) + 1);
        mistakes.add(
                place,
                String.format(Locale.ROOT, "0x%02X is not a character of a text", code),
                "a text file in UTF-8",
                "");
    }
}
