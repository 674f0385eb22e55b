package dev.lapwing.measure;

import dev.lapwing.signal.Formula;
import dev.lapwing.signal.Spans;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Truth of a formula when everything that it speaks of comes later, or earlier. How far that goes without a change of
 * its truth is its robustness in time (A. Donzé and O. Maler, FORMATS 2010): an atom that is true must have been so for
 * that long, or must stay so for that long.
 *
 * @param formula its atoms are numbered as in {@code atoms}
 * @param atoms   when each atom is true
 * @param turned  numbers of atoms that make it less true where they are truer
 * @param atUs    bench time at which the formula is looked at, in µs
 * @param reachUs greatest shift that counts, in µs
 */
record MovedTruth(Formula formula, List<Spans> atoms, Set<Integer> turned, long atUs, long reachUs) {
    /** A beginning or an end moved by so much, in µs, is told from one that was not. */
    private static final long NUDGE_US = 2;

    /** One beginning or end of an atom's truth. */
    record End(int atom, int stretch, boolean beginning) {}

    /**
     * How far it goes, in µs, below 0 if the formula is false.
     *
     * @param later what decides it: that things came later, or earlier
     */
    record Shift(long us, boolean later) {}

    /** The lesser of what it bears later and earlier; of a false formula, the lesser of what would make it true. */
    Shift least() {
        Shift later = new Shift(furthest(true), true);
        Shift earlier = new Shift(furthest(false), false);
        return Math.abs(later.us) <= Math.abs(earlier.us) ? later : earlier;
    }

    private long furthest(boolean later) {
        boolean so = holds(later, 0, List.of());
        long low = so ? 0 : -reachUs;
        long high = so ? reachUs : -1;
        if (!so && !holds(later, low, List.of())) {
            return low;
        }
        while (low < high) {
            long middle = low + (high - low + 1) / 2;
            if (holds(later, middle, List.of())) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }

    /** The beginnings and ends that a shift rests on: moved by a little, they would change it. */
    List<End> deciding(Shift shift) {
        List<End> found = new ArrayList<>();
        if (Math.abs(shift.us) < reachUs) {
            seek(shift, all(), found);
        }
        return found;
    }

    private void seek(Shift shift, List<End> among, List<End> found) {
        if (among.isEmpty() || holds(shift.later, shift.us, among)) {
            return;
        }
        if (among.size() == 1) {
            found.add(among.get(0));
            return;
        }
        int half = among.size() / 2;
        seek(shift, among.subList(0, half), found);
        seek(shift, among.subList(half, among.size()), found);
    }

    private List<End> all() {
        List<End> all = new ArrayList<>();
        for (int atom = 0; atom < atoms.size(); atom++) {
            for (int i = 0; i < atoms.get(atom).size(); i++) {
                if (atoms.get(atom).fromUs(i) > -Spans.FAR) {
                    all.add(new End(atom, i, true));
                }
                if (atoms.get(atom).toUs(i) < Spans.FAR) {
                    all.add(new End(atom, i, false));
                }
            }
        }
        return all;
    }

    /** Bench time of an end, in µs. */
    long atUs(End end) {
        Spans spans = atoms.get(end.atom);
        return end.beginning ? spans.fromUs(end.stretch) : spans.toUs(end.stretch);
    }

    /** 1 where the shift grows if this end comes later, -1 where it shrinks. */
    int sense(End end) {
        return end.beginning != turned.contains(end.atom) ? -1 : 1;
    }

    private boolean holds(boolean later, long us, List<End> nudged) {
        Spans[] moved = new Spans[atoms.size()];
        int next = 0;
        for (int atom = 0; atom < moved.length; atom++) {
            long sense = turned.contains(atom) ? -1 : 1;
            Spans spans = atoms.get(atom);
            long[] pairs = new long[2 * spans.size()];
            for (int i = 0; i < spans.size(); i++) {
                pairs[2 * i] = spans.fromUs(i);
                pairs[2 * i + 1] = spans.toUs(i);
            }
            move(pairs, later, sense * us);
            for (; next < nudged.size() && nudged.get(next).atom == atom; next++) {
                End end = nudged.get(next);
                pairs[2 * end.stretch + (end.beginning ? 0 : 1)] += sense * (end.beginning ? NUDGE_US : -NUDGE_US);
            }
            moved[atom] = Spans.of(pairs);
        }
        return Spans.of(formula, moved).at(atUs);
    }

    /**
     * Leaves of each stretch what was true for so long before, or stays so for so long after; less than 0 adds to it.
     */
    private static void move(long[] pairs, boolean later, long us) {
        for (int i = 0; i < pairs.length; i++) {
            boolean beginning = i % 2 == 0;
            boolean far = Math.abs(pairs[i]) >= Spans.FAR;
            if (!far && beginning == (later == us >= 0)) {
                pairs[i] += beginning ? us : -us;
            }
        }
    }
}
