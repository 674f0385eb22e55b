package dev.lapwing.source;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Gathers every mistake of a file, so that the user mends them in one go. Not for use by several threads. */
public final class Mistakes {
    private final List<Mistake> found = new ArrayList<>();

    public void add(Mistake mistake) {
        if (!found.contains(mistake)) {
            found.add(mistake);
        }
    }

    public void add(Place place, String what, String expected, String hint) {
        add(new Mistake(place, what, expected, hint));
    }

    public boolean isEmpty() {
        return found.isEmpty();
    }

    /** All of them, in the order of the files' lines where they are of one file. */
    public List<Mistake> all() {
        return Collections.unmodifiableList(found);
    }
}
