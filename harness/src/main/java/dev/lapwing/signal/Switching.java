package dev.lapwing.signal;

import java.util.OptionalLong;

/** When a two-state signal takes a level for good, contact bounce passed over. */
public final class Switching {
    private Switching() {}

    /**
     * First change to {@code level} in the window after which that level stays for at least {@code holdUs}.
     *
     * @param edges        the signal
     * @param level        level waited for
     * @param window       in which the change must lie
     * @param holdUs       shorter stays are bounce, in µs
     * @param knownUntilUs bench time up to which the edges are complete
     * @return its bench time in µs; empty if there is none, or not yet
     */
    public static OptionalLong first(Edges edges, boolean level, Window window, long holdUs, long knownUntilUs) {
        for (int i = edges.firstAfter(window.fromUs() - 1); i < edges.size(); i++) {
            if (edges.timeUs(i) > window.toUs()) {
                break;
            }
            long endUs = i + 1 < edges.size() ? edges.timeUs(i + 1) : knownUntilUs;
            if (edges.level(i) == level && endUs - edges.timeUs(i) >= holdUs) {
                return OptionalLong.of(edges.timeUs(i));
            }
        }
        return OptionalLong.empty();
    }

    /** How often the signal comes on in the window. */
    public static int pulses(Edges edges, Window window) {
        int count = 0;
        for (int i = edges.firstAfter(window.fromUs() - 1); i < edges.size(); i++) {
            if (edges.timeUs(i) > window.toUs()) {
                break;
            }
            count += edges.level(i) ? 1 : 0;
        }
        return count;
    }
}
