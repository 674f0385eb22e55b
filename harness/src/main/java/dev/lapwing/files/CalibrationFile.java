package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.source.Mistake;
import dev.lapwing.source.Place;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.CopyOption;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.util.ArrayList;
import java.util.List;

/** Writes a calibration back to its bench file. */
public final class CalibrationFile {
    private static final CopyOption[] REPLACE = {StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE};

    private CalibrationFile() {}

    /**
     * Puts a signal's calibration anew and changes nothing else; the file as it was lies beside it as
     * {@code FILE.previous}. A calibration that other signals share is left to them, and the signal gets one of its
     * own. The file is replaced whole or not at all, whatever happens meanwhile; a link to it stays a link.
     *
     * @param was the file as it was when the calibration began
     * @return mistakes that the file would have then, or why the calibration no longer fits it, in which case nothing
     *     was written; empty if it was
     * @throws IOException if the file cannot be read or written; it is as it was then
     */
    public static List<Mistake> write(Path file, BenchFile was, String signal, NewCalibration calibration)
            throws IOException {
        Loaded<BenchFile> now = BenchFiles.load(file);
        if (now.value().isEmpty()) {
            return now.mistakes();
        }
        if (!channel(was, signal).equals(channel(now.value().get(), signal))) {
            return List.of(new Mistake(
                    new Place(file.toString(), 1, 1),
                    "somebody else has changed the point or the calibration of '" + signal + "' meanwhile",
                    "them as they were when this calibration began",
                    ""));
        }
        Path real = file.toRealPath();
        if (!Files.isWritable(real)) {
            // Its folder may let another take its place, but who made it so wanted none.
            throw new AccessDeniedException(file.toString());
        }
        Path made = beside(real);
        Path kept = beside(real);
        try {
            put(made, changed(Files.readString(real, UTF_8), signal, calibration));
            List<Mistake> mistakes = BenchFiles.load(made).mistakes();
            if (!mistakes.isEmpty()) {
                return mistakes.stream().map(mistake -> in(file, mistake)).toList();
            }
            likeThat(real, made);
            Files.copy(real, kept, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.COPY_ATTRIBUTES);
            Files.move(kept, real.resolveSibling(real.getFileName() + ".previous"), REPLACE);
            Files.move(made, real, REPLACE);
            return List.of();
        } finally {
            Files.deleteIfExists(made);
            Files.deleteIfExists(kept);
        }
    }

    private static Mistake in(Path file, Mistake mistake) {
        Place place = mistake.place();
        return new Mistake(
                new Place(file.toString(), place.line(), place.column()),
                mistake.found(),
                mistake.expected(),
                mistake.hint());
    }

    /** What a calibration is of, and what it takes the place of; where it stands in the file is no matter. */
    private static List<Object> channel(BenchFile file, String signal) {
        List<Object> channel = new ArrayList<>();
        for (Input input : file.inputs()) {
            if (input.signal().key().equals(signal)) {
                channel.add(input.calibration());
                file.points().stream()
                        .filter(point -> point.name().equals(input.point()))
                        .forEach(channel::add);
            }
        }
        return channel;
    }

    private static String changed(String text, String signal, NewCalibration calibration) {
        String mark = text.startsWith("\uFEFF") ? "\uFEFF" : "";
        return mark + new CalibrationText(text.substring(mark.length())).with(signal, calibration.yaml());
    }

    /** A file that nobody else has. */
    private static Path beside(Path file) throws IOException {
        return Files.createTempFile(file.getParent(), file.getFileName() + ".", ".new");
    }

    /** On the disk, and not in its cache alone, before it takes the place of another. */
    private static void put(Path file, String text) throws IOException {
        try (FileChannel out = FileChannel.open(file, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(UTF_8));
            while (bytes.hasRemaining()) {
                out.write(bytes);
            }
            out.force(true);
        }
    }

    /** Who may read and write it stays as it was, where this machine knows such a thing. */
    private static void likeThat(Path file, Path made) throws IOException {
        if (Files.getFileStore(file).supportsFileAttributeView(PosixFileAttributeView.class)) {
            Files.setPosixFilePermissions(made, Files.getPosixFilePermissions(file));
        }
    }
}
