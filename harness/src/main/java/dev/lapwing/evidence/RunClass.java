package dev.lapwing.evidence;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a run is good for; said before it starts and never changed. */
public enum RunClass {
    /** A trial; claims nothing. Every simulated run is one. */
    DRY,
    /** Counts as evidence of the unit named in it. */
    EVIDENCE,
    /** Looks for a cause; claims nothing. */
    INVESTIGATION,
    /** Unattended. */
    NIGHT;

    /** In lower case, as people read and write it. */
    public String text() {
        return name().toLowerCase(Locale.ROOT);
    }

    public static Optional<RunClass> named(String text) {
        return Arrays.stream(values()).filter(c -> c.text().equals(text)).findFirst();
    }
}
