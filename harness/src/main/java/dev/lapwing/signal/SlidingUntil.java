package dev.lapwing.signal;

/**
 * Least of {@code holds} and value of {@code holds until then} over a window that slides along samples. Both fold from
 * left to right by one associative rule, so two stacks serve: one of what came lately with its fold so far, one of what
 * came before with the fold of each of its ends. Each sample is folded at most three times whatever the width, as in D.
 * Lemire, "Streaming maximum-minimum filter using no more than three comparisons per element" (2006) for the least
 * alone. For one thread.
 */
final class SlidingUntil {
    /** What a fold holds: {@code holds}, its witness, {@code then}, its witness. */
    private static final class Fold {
        private double holds = Double.POSITIVE_INFINITY;
        private long holdsBy;
        private double then = Double.NEGATIVE_INFINITY;
        private long thenBy;

        /** This fold before one more sample. */
        private void before(double holds, long holdsBy, double then, long thenBy) {
            double reached = Math.min(this.holds, then);
            if (reached > this.then) {
                this.thenBy = then <= this.holds ? thenBy : this.holdsBy;
                this.then = reached;
            }
            if (holds < this.holds) {
                this.holds = holds;
                this.holdsBy = holdsBy;
            }
        }

        private void clear() {
            holds = Double.POSITIVE_INFINITY;
            holdsBy = 0;
            then = Double.NEGATIVE_INFINITY;
            thenBy = 0;
        }

        private void set(Fold other) {
            holds = other.holds;
            holdsBy = other.holdsBy;
            then = other.then;
            thenBy = other.thenBy;
        }
    }

    private final Witnessed holds = new Witnessed();
    private final Witnessed then = new Witnessed();
    private final Fold late = new Fold();
    private final Fold whole = new Fold();
    private Fold[] ends = {};
    private int early;
    private boolean known;

    /** Takes one more sample at the window's end. */
    void add(double holdsValue, long holdsBy, double thenValue, long thenBy) {
        holds.add(holdsValue, holdsBy);
        then.add(thenValue, thenBy);
        late.before(holdsValue, holdsBy, thenValue, thenBy);
        known = false;
    }

    /** Lets the oldest sample go. */
    void drop() {
        if (early == 0) {
            turn();
        }
        early--;
        holds.drop();
        then.drop();
        known = false;
    }

    /** Folds all that came lately from its end on, so that each of its beginnings has its fold. */
    private void turn() {
        early = holds.size();
        if (ends.length < early) {
            Fold[] more = new Fold[Math.max(16, 2 * early)];
            for (int i = 0; i < more.length; i++) {
                more[i] = i < ends.length ? ends[i] : new Fold();
            }
            ends = more;
        }
        for (int i = 0; i < early; i++) {
            int at = early - 1 - i;
            Fold fold = ends[i];
            fold.clear();
            fold.before(holds.value(at), holds.witness(at), then.value(at), then.witness(at));
            if (i > 0) {
                Fold rest = ends[i - 1];
                fold.before(rest.holds, rest.holdsBy, rest.then, rest.thenBy);
            }
        }
        late.clear();
    }

    private Fold whole() {
        if (!known) {
            if (early == 0) {
                whole.clear();
            } else {
                whole.set(ends[early - 1]);
            }
            whole.before(late.holds, late.holdsBy, late.then, late.thenBy);
            known = true;
        }
        return whole;
    }

    int size() {
        return holds.size();
    }

    /** Of the oldest sample. */
    double oldestHolds() {
        return holds.value();
    }

    long oldestHoldsBy() {
        return holds.witness();
    }

    /** The least of {@code holds}; infinite if the window is empty. */
    double holds() {
        return whole().holds;
    }

    long holdsBy() {
        return whole().holdsBy;
    }

    /** The greatest {@code then} up to which {@code holds}; infinitely low if the window is empty. */
    double then() {
        return whole().then;
    }

    long thenBy() {
        return whole().thenBy;
    }
}
