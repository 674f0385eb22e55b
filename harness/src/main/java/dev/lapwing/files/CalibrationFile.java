package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.source.Mistake;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;

/** Writes a calibration back to its bench file. */
public final class CalibrationFile {
    private CalibrationFile() {}

    /**
     * Puts a signal's calibration anew and changes nothing else; the file as it was lies beside it as
     * {@code FILE.previous}. A calibration that other signals share is left to them, and the signal gets one of its
     * own.
     *
     * @return mistakes that the file would have then, in which case nothing was written; empty if it was
     * @throws IOException if the file cannot be read or written; it is as it was then
     */
    public static List<Mistake> write(Path file, String signal, NewCalibration calibration) throws IOException {
        String text = Files.readString(file, UTF_8);
        String mark = text.startsWith("\uFEFF") ? "\uFEFF" : "";
        String changed = mark + new CalibrationText(text.substring(mark.length())).with(signal, calibration.yaml());
        Path made = file.resolveSibling(file.getFileName() + ".new");
        Files.writeString(made, changed, UTF_8);
        Loaded<BenchFile> read = BenchFiles.load(made);
        if (!read.mistakes().isEmpty()) {
            Files.delete(made);
            return read.mistakes();
        }
        Path previous = file.resolveSibling(file.getFileName() + ".previous");
        Files.copy(file, previous, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.COPY_ATTRIBUTES);
        Files.move(made, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        return List.of();
    }
}
