package dev.lapwing.signal;

import java.util.List;

/**
 * A formula of signal temporal logic over sampled atoms. An atom's value is how far it is from changing: above 0 true,
 * below 0 false. Bounds are in µs after the sample looked from, both ends included.
 *
 * <p>Source of the logic and of its robustness: O. Maler and D. Nickovic, "Monitoring Temporal Properties of Continuous
 * Signals", FORMATS 2004; G. Fainekos and G. Pappas, "Robustness of temporal logic specifications for continuous-time
 * signals", Theoretical Computer Science 410 (2009).
 */
public sealed interface Formula {
    /** The atom of that number, from 0. */
    record Atom(int number) implements Formula {}

    /** Truth turned round; value with its sign changed. */
    record Not(Formula of) implements Formula {}

    /** The least of its parts. */
    record AllOf(List<Formula> parts) implements Formula {}

    /** The greatest of its parts. */
    record AnyOf(List<Formula> parts) implements Formula {}

    /** The least over the bounds. */
    record Always(long fromUs, long toUs, Formula holds) implements Formula {
        public Always {
            checkBounds(fromUs, toUs);
        }
    }

    /** The greatest over the bounds. */
    record Eventually(long fromUs, long toUs, Formula holds) implements Formula {
        public Eventually {
            checkBounds(fromUs, toUs);
        }
    }

    /**
     * {@code then} comes within the bounds, and {@code holds} from the sample looked from until just before it: the
     * greatest, over the instants of the bounds, of the lesser of {@code then} there and the least of {@code holds}
     * before.
     */
    record Until(long fromUs, long toUs, Formula holds, Formula then) implements Formula {
        public Until {
            checkBounds(fromUs, toUs);
        }
    }

    /** How far after the sample looked from the formula looks at most, in µs. */
    static long horizonUs(Formula formula) {
        if (formula instanceof Not not) {
            return horizonUs(not.of());
        } else if (formula instanceof AllOf all) {
            return horizonUs(all.parts());
        } else if (formula instanceof AnyOf any) {
            return horizonUs(any.parts());
        } else if (formula instanceof Always always) {
            return always.toUs() + horizonUs(always.holds());
        } else if (formula instanceof Eventually eventually) {
            return eventually.toUs() + horizonUs(eventually.holds());
        } else if (formula instanceof Until until) {
            return until.toUs() + Math.max(horizonUs(until.holds()), horizonUs(until.then()));
        }
        return 0;
    }

    private static long horizonUs(List<Formula> parts) {
        return parts.stream().mapToLong(Formula::horizonUs).max().orElse(0);
    }

    private static void checkBounds(long fromUs, long toUs) {
        if (fromUs < 0 || toUs < fromUs) {
            throw new IllegalArgumentException("bounds must be 0 or later and in order: " + fromUs + " to " + toUs);
        }
    }
}
