package dev.lapwing.signal;

import java.util.Arrays;
import java.util.List;

/**
 * When something is true: stretches of time in order and apart, each from its beginning until just before its end, in
 * µs. Immutable. Whatever is made of them takes a time that grows with their number alone.
 */
public final class Spans {
    /** As far before or after everything as anything goes, in µs. */
    public static final long FAR = Long.MAX_VALUE / 4;

    private static final Spans NEVER = new Spans(new long[0]);

    private final long[] ends;

    private Spans(long[] ends) {
        this.ends = ends;
    }

    /** From pairs of a beginning and an end, in order of their beginnings; those that meet become one. */
    public static Spans of(long... pairs) {
        long[] ends = new long[pairs.length];
        int size = 0;
        for (int i = 0; i < pairs.length; i += 2) {
            if (pairs[i] >= pairs[i + 1]) {
                continue;
            }
            if (size > 0 && pairs[i] <= ends[size - 1]) {
                ends[size - 1] = Math.max(ends[size - 1], pairs[i + 1]);
            } else {
                ends[size++] = pairs[i];
                ends[size++] = pairs[i + 1];
            }
        }
        return size == 0 ? NEVER : new Spans(Arrays.copyOf(ends, size));
    }

    /** When the formula is true, of when its atoms are. */
    public static Spans of(Formula formula, Spans[] atoms) {
        if (formula instanceof Formula.Atom atom) {
            return atoms[atom.number()];
        } else if (formula instanceof Formula.Not not) {
            return of(not.of(), atoms).not();
        } else if (formula instanceof Formula.AllOf all) {
            return any(all.parts().stream().map(part -> of(part, atoms).not()).toList())
                    .not();
        } else if (formula instanceof Formula.AnyOf any) {
            return any(any.parts().stream().map(part -> of(part, atoms)).toList());
        } else if (formula instanceof Formula.Always always) {
            return of(always.holds(), atoms)
                    .not()
                    .eventually(always.fromUs(), always.toUs())
                    .not();
        } else if (formula instanceof Formula.Eventually soon) {
            return of(soon.holds(), atoms).eventually(soon.fromUs(), soon.toUs());
        }
        Formula.Until until = (Formula.Until) formula;
        return of(until.holds(), atoms).until(until.fromUs(), until.toUs(), of(until.then(), atoms));
    }

    public int size() {
        return ends.length / 2;
    }

    public long fromUs(int i) {
        return ends[2 * i];
    }

    public long toUs(int i) {
        return ends[2 * i + 1];
    }

    public boolean at(long timeUs) {
        int found = Arrays.binarySearch(ends, timeUs);
        return (found >= 0 ? found : -found - 2) % 2 == 0 && found != -1;
    }

    Spans not() {
        long[] gaps = new long[ends.length + 2];
        gaps[0] = -FAR;
        System.arraycopy(ends, 0, gaps, 1, ends.length);
        gaps[gaps.length - 1] = FAR;
        return of(gaps);
    }

    public Spans or(Spans other) {
        long[] both = new long[ends.length + other.ends.length];
        int i = 0;
        int j = 0;
        for (int to = 0; to < both.length; to += 2) {
            boolean mine = j == other.ends.length || i < ends.length && ends[i] <= other.ends[j];
            both[to] = mine ? ends[i] : other.ends[j];
            both[to + 1] = mine ? ends[i + 1] : other.ends[j + 1];
            i += mine ? 2 : 0;
            j += mine ? 0 : 2;
        }
        return of(both);
    }

    /** What of this lies outside of the other. */
    public Spans without(Spans other) {
        return not().or(other).not();
    }

    private static Spans any(List<Spans> all) {
        return all.stream().reduce(NEVER, Spans::or);
    }

    /** When it will be true at one instant at least between those bounds. */
    Spans eventually(long fromUs, long toUs) {
        long[] earlier = new long[ends.length];
        for (int i = 0; i < ends.length; i += 2) {
            earlier[i] = ends[i] - toUs;
            earlier[i + 1] = ends[i + 1] - fromUs;
        }
        return of(earlier);
    }

    /** When {@code then} will be true between those bounds and this from now until just before that. */
    Spans until(long fromUs, long toUs, Spans then) {
        long[] found = new long[2 * (size() + then.size()) + 2];
        int count = 0;
        int j = 0;
        for (int i = 0; i < size(); i++) {
            // The instant at which this ends may be the one at which the other begins.
            long last = toUs(i) + 1;
            while (j < then.size() && then.toUs(j) <= fromUs(i)) {
                j++;
            }
            for (int k = j; k < then.size() && then.fromUs(k) < last; k++) {
                if (count + 2 > found.length) {
                    found = Arrays.copyOf(found, 2 * found.length);
                }
                found[count++] = Math.max(fromUs(i), Math.max(then.fromUs(k), fromUs(i)) - toUs);
                found[count++] = Math.min(toUs(i), Math.min(then.toUs(k), last) - fromUs);
            }
        }
        Spans later = of(Arrays.copyOf(found, count));
        return fromUs == 0 ? later.or(then) : later;
    }

    @Override
    public String toString() {
        return Arrays.toString(ends);
    }
}
