package dev.lapwing.measure;

import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
import java.util.List;

/** Stretches of bench time over which something with two states is true. */
final class Stretches {
    private Stretches() {}

    /** Those within the window, cut to it; one of no length is left out unless it begins at the window's end. */
    static List<Window> of(Edges truth, Window window) {
        List<Window> found = new ArrayList<>();
        boolean on = truth.at(window.fromUs());
        long sinceUs = window.fromUs();
        for (int i = truth.firstAfter(window.fromUs()); i < truth.size() && truth.timeUs(i) <= window.toUs(); i++) {
            if (on && !truth.level(i)) {
                found.add(new Window(sinceUs, truth.timeUs(i)));
            }
            on = truth.level(i);
            sinceUs = truth.timeUs(i);
        }
        if (on) {
            found.add(new Window(sinceUs, window.toUs()));
        }
        return found;
    }

    /** What lies in a stretch of both lists; each list in order and without overlaps. */
    static List<Window> both(List<Window> one, List<Window> other) {
        List<Window> found = new ArrayList<>();
        for (Window a : one) {
            for (Window b : other) {
                long from = Math.max(a.fromUs(), b.fromUs());
                long to = Math.min(a.toUs(), b.toUs());
                if (from < to) {
                    found.add(new Window(from, to));
                }
            }
        }
        return found;
    }

    /** What of the window lies in none of them; the list in order and without overlaps. */
    static List<Window> outside(List<Window> stretches, Window window) {
        List<Window> found = new ArrayList<>();
        long from = window.fromUs();
        for (Window stretch : stretches) {
            if (stretch.fromUs() > from) {
                found.add(new Window(from, Math.min(stretch.fromUs(), window.toUs())));
            }
            from = Math.max(from, stretch.toUs());
        }
        if (from < window.toUs()) {
            found.add(new Window(from, window.toUs()));
        }
        return found;
    }
}
