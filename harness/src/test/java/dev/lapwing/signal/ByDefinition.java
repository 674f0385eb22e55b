package dev.lapwing.signal;

import java.util.List;
import java.util.SplittableRandom;

/**
 * Robustness by its definition, sample by sample and bound by bound: slow, and with nothing in common with the
 * evaluator that it is held against. Empty (NaN) where the samples end before the bounds.
 */
final class ByDefinition {
    private final long[] times;
    private final double[][] samples;

    ByDefinition(long[] times, double[][] samples) {
        this.times = times;
        this.samples = samples;
    }

    double at(Formula formula, int i) {
        if (formula instanceof Formula.Atom atom) {
            return samples[i][atom.number()];
        } else if (formula instanceof Formula.Not not) {
            return -at(not.of(), i);
        } else if (formula instanceof Formula.AllOf all) {
            return all.parts().stream().mapToDouble(part -> at(part, i)).reduce(Double.POSITIVE_INFINITY, Math::min);
        } else if (formula instanceof Formula.AnyOf any) {
            return any.parts().stream().mapToDouble(part -> at(part, i)).reduce(Double.NEGATIVE_INFINITY, Math::max);
        } else if (formula instanceof Formula.Always always) {
            double least = Double.POSITIVE_INFINITY;
            for (int j = held(times[i] + always.fromUs()); j <= held(times[i] + always.toUs()); j++) {
                least = Math.min(least, at(always.holds(), j));
            }
            return ends(times[i] + always.toUs(), least);
        } else if (formula instanceof Formula.Eventually soon) {
            double greatest = Double.NEGATIVE_INFINITY;
            for (int j = held(times[i] + soon.fromUs()); j <= held(times[i] + soon.toUs()); j++) {
                greatest = Math.max(greatest, at(soon.holds(), j));
            }
            return ends(times[i] + soon.toUs(), greatest);
        }
        return until((Formula.Until) formula, i);
    }

    private double until(Formula.Until until, int i) {
        double greatest = Double.NEGATIVE_INFINITY;
        for (int j = held(times[i] + until.fromUs()); j <= held(times[i] + until.toUs()); j++) {
            double reached = at(until.then(), j);
            for (int k = i; k < j; k++) {
                reached = Math.min(reached, at(until.holds(), k));
            }
            greatest = Math.max(greatest, reached);
        }
        return ends(times[i] + until.toUs(), greatest);
    }

    private double ends(long us, double value) {
        return us > times[times.length - 1] ? Double.NaN : value;
    }

    /** The sample that holds at that time. */
    private int held(long us) {
        int i = 0;
        while (i + 1 < times.length && times[i + 1] <= us) {
            i++;
        }
        return i;
    }

    /** A formula over so many atoms, with bounds of at most {@code reachUs} each. */
    static Formula random(SplittableRandom random, int atoms, int depth, int reachUs) {
        if (depth == 0) {
            return new Formula.Atom(random.nextInt(atoms));
        }
        long from = random.nextInt(3) == 0 ? random.nextInt(reachUs) : 0;
        long to = from + random.nextInt(reachUs);
        Formula one = random(random, atoms, random.nextInt(depth), reachUs);
        Formula other = random(random, atoms, random.nextInt(depth), reachUs);
        return switch (random.nextInt(6)) {
            case 0 -> new Formula.Not(one);
            case 1 -> new Formula.AllOf(List.of(one, other));
            case 2 -> new Formula.AnyOf(List.of(one, other));
            case 3 -> new Formula.Always(from, to, one);
            case 4 -> new Formula.Eventually(from, to, one);
            default -> new Formula.Until(from, to, one, other);
        };
    }
}
