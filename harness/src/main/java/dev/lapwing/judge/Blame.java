package dev.lapwing.judge;

import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.Map;

/** Which source to better where the uncertainty is in the way of a verdict, and how. */
final class Blame {
    /** What adds less than this share of the variance is not most of it. */
    private static final double MOST = 0.5;

    private static final String SCATTER = "make the channel quieter, or sample it faster";
    private static final String FASTER = "sample it faster";
    private static final String STAMPS = "use a bench that stamps more closely";
    private static final String LEVEL = "choose a level that is surely passed or surely missed";
    private static final String STEEPER = "choose a level on a steeper part of the curve";

    /** By the first part of a source's key. */
    private static final Map<String, String> MENDS = Map.ofEntries(
            Map.entry("calibration", "calibrate it more closely, or use a better transducer"),
            Map.entry("drift", "calibrate it more often"),
            Map.entry("resolution", "read it in finer counts"),
            Map.entry("noise", SCATTER),
            Map.entry("selection", SCATTER),
            Map.entry("interpolation", FASTER),
            Map.entry("sample interval", FASTER),
            Map.entry("shape", FASTER),
            Map.entry("slope", STEEPER),
            Map.entry("propagation", STEEPER),
            Map.entry("stamp", STAMPS),
            Map.entry("arrival", STAMPS),
            Map.entry("stimulus stamp", STAMPS),
            Map.entry("clock", "use a bench with a better clock"),
            Map.entry("tube", "shorten the tube, or measure its delay more closely"),
            Map.entry("spacing", "measure the distances between the vehicles more closely"),
            Map.entry("unseen", "see to the bench's link and run it again"),
            Map.entry("straight line", "watch more vehicles"),
            Map.entry("level close by", LEVEL),
            Map.entry("level or stamp", LEVEL));

    private Blame() {}

    /**
     * {@code ; most of the uncertainty is calibration of P3 (82 %): calibrate it more closely, …}; empty where nothing
     * is in doubt.
     */
    static String of(Estimate measured) {
        return measured.dominant().map(part -> of(part, measured.share(part))).orElse("");
    }

    private static String of(Component part, double share) {
        String[] key = part.source().split("/");
        String mend = MENDS.getOrDefault(key[0], "better that first");
        return "; " + (share >= MOST ? "most" : "the greatest part") + " of the uncertainty is " + spoken(key) + " ("
                + DecisionRule.percent(share) + "): " + mend;
    }

    /** {@code calibration/P3} as {@code calibration of P3}; where in the run it was read is left out. */
    private static String spoken(String[] key) {
        return switch (key[0]) {
            case "propagation" -> "the skew of a time in it";
            case "level close by" -> "a level close by";
            case "unseen" -> "what was not seen of " + key[1];
            default -> key.length == 1 ? key[0] : key[0] + " of " + key[1];
        };
    }
}
