package dev.lapwing.judge;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Words;
import dev.lapwing.uncertainty.Conformity;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.OptionalDouble;

/**
 * A measured value held against its limit.
 *
 * @param verdict pass, inconclusive or fail
 * @param margin  distance to the nearest end of the limit, base unit; negative outside
 * @param words   how it stands to the limit, a clause
 */
record Decision(Verdict verdict, double margin, String words) {

    /**
     * Guarded: w = U on both sides of each end; inside by U or more passes, outside by more than U fails, where the
     * interval is skewed by its side towards that end; between lies ILAC-G8's conditional pass or conditional fail,
     * which is inconclusive (ILAC-G8:09/2019; JCGM 106:2012, 8.3).
     * Guarded by a risk: passes if the chance that it is outside is at most that, fails if the chance that it is inside
     * is (JCGM 106:2012, 8.3.2.3 and 9.5). Simple: inside passes, outside fails.
     *
     * <p>A measurement too doubtful for its limit (two ends: 2U wider than between them; one end: U above the largest
     * that was agreed) passes nothing. It may still fail what lies surely outside: a dump that took half a minute is
     * not saved by a stop-watch.
     */
    static Decision of(Estimate measured, Limit limit, Words words) {
        double margin = limit.margin(measured.value());
        Guard guard = Guard.of(measured, limit, margin);
        String side = side(margin, limit, words);
        if (guard.fails) {
            return new Decision(Verdict.FAIL, margin, side);
        }
        double doubt = measured.expanded();
        OptionalDouble allowed = largest(limit);
        if (allowed.isPresent() && doubt > allowed.getAsDouble()) {
            String wide = tooWide(doubt, allowed.getAsDouble(), limit, words) + Blame.of(measured);
            return new Decision(Verdict.INCONCLUSIVE, margin, wide);
        }
        if (!limit.rule().guards()) {
            return new Decision(margin >= 0 ? Verdict.PASS : Verdict.FAIL, margin, side + " (simple acceptance)");
        }
        if (guard.passes) {
            return new Decision(Verdict.PASS, margin, side);
        }
        String conditional = margin >= 0 ? "conditional pass" : "conditional fail";
        String why = conditional + ", " + side + ", " + guard.lacks + Blame.of(measured);
        return new Decision(Verdict.INCONCLUSIVE, margin, why);
    }

    /**
     * Where a value stands to the guard band.
     *
     * @param passes surely enough inside
     * @param fails  surely enough outside
     * @param lacks  why it is neither, a clause
     */
    private record Guard(boolean passes, boolean fails, String lacks) {

        static Guard of(Estimate measured, Limit limit, double margin) {
            double doubt = measured.expanded();
            if (limit.rule().risk().isEmpty() || doubt == 0) {
                return new Guard(limit.holds(measured), limit.excludes(measured), "less than the uncertainty");
            }
            double risk = limit.rule().risk().getAsDouble();
            Conformity conformity = limit.conformity(measured);
            double wrong = margin >= 0 ? conformity.consumersRisk() : conformity.producersRisk();
            return new Guard(
                    conformity.consumersRisk() <= risk,
                    conformity.producersRisk() <= risk,
                    "wrong with a chance of " + chance(wrong, risk) + " where at most " + DecisionRule.percent(risk)
                            + " was agreed");
        }

        /** What is a little more than was agreed is not told as if it were just that. */
        private static String chance(double wrong, double risk) {
            String shown = DecisionRule.percent(wrong);
            return shown.equals(DecisionRule.percent(risk)) ? "a little over " + shown : shown;
        }
    }

    /** Greatest U with which a pass may be claimed; empty if nothing bounds it. */
    private static OptionalDouble largest(Limit limit) {
        if (limit.lower().isPresent() && limit.upper().isPresent()) {
            double half = (limit.upper().getAsDouble() - limit.lower().getAsDouble()) / 2;
            return OptionalDouble.of(
                    limit.largestUncertainty().isPresent()
                            ? Math.min(half, limit.largestUncertainty().getAsDouble())
                            : half);
        }
        return limit.largestUncertainty();
    }

    private static String tooWide(double doubt, double allowed, Limit limit, Words words) {
        return "uncertainty too wide to decide, U = " + words.value(doubt, limit.dimension()) + " where at most "
                + words.value(allowed, limit.dimension()) + " serves";
    }

    private static String side(double margin, Limit limit, Words words) {
        if (margin == 0) {
            return "on the limit";
        }
        return (margin > 0 ? "inside by " : "outside by ") + words.distance(margin, limit);
    }
}
