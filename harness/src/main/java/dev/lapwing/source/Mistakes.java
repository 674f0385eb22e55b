package dev.lapwing.source;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Gathers every mistake of a file, so that the user mends them in one go. Not for use by several threads. */
public final class Mistakes {
    private final Set<Mistake> found = new LinkedHashSet<>();

    public void add(Mistake mistake) {
        found.add(mistake);
    }

    public void add(Place place, String what, String expected, String hint) {
        add(new Mistake(place, what, expected, hint));
    }

    public boolean isEmpty() {
        return found.isEmpty();
    }

    /** All of them, in the order of the files' lines where they are of one file. */
    public List<Mistake> all() {
        return List.copyOf(found);
    }
}
