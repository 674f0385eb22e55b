package dev.lapwing.evidence;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;

/**
 * Which run it was: everything about it that is not evidence. None of it enters {@code evidence-sha256} but the seed's
 * effect.
 *
 * @param id        unique; see {@link #idOf}
 * @param session   shared by all sequences that one command ran; may be empty
 * @param runClass  what the run is good for
 * @param started   wall-clock time
 * @param operator  who ran it; may be empty
 * @param serial    serial number of the unit under test; may be empty
 * @param boot      boot mark of the bench
 * @param simulated true where nothing of it was real
 * @param seed      of a simulated bench
 * @param harness   version of the harness
 * @param host      the machine; may be empty
 * @param files     the files that the run came from
 */
public record RunIdentity(
        String id,
        String session,
        RunClass runClass,
        Instant started,
        String operator,
        String serial,
        String boot,
        boolean simulated,
        OptionalLong seed,
        String harness,
        String host,
        List<SourceFile> files) {

    /**
     * A file that the run came from.
     *
     * @param kind   {@code sequence}, {@code fixture}, {@code bench} or {@code part}
     * @param path   as the user named it
     * @param sha256 of its bytes, in lower-case hexadecimal
     */
    public record SourceFile(String kind, String path, String sha256) {}

    /** The day on which it was begun, UTC; calibrations are in date or out of date by it. */
    LocalDate day() {
        return LocalDate.ofInstant(started, ZoneOffset.UTC);
    }

    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

    public RunIdentity {
        files = List.copyOf(files);
        if (!id.matches("[A-Za-z0-9][A-Za-z0-9._-]{0,199}")) {
            throw new IllegalArgumentException("'" + id + "' is no run id: it names a directory");
        }
    }

    /**
     * A run id that sorts by time: {@code 20261124T081530Z-03-ep-staircase-7f3a0c}.
     *
     * @param started  wall-clock time
     * @param sequence name of the sequence; anything but letters, figures and hyphens becomes a hyphen
     * @param random   any number; its low 24 bits are used
     */
    public static String idOf(Instant started, String sequence, long random) {
        String name = sequence.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
        String shortened = name.substring(0, Math.min(80, name.length()));
        return String.format(Locale.ROOT, "%s-%s-%06x", STAMP.format(started), shortened, random & 0xFFFFFF);
    }
}
