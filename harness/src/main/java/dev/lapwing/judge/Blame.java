package dev.lapwing.judge;

import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.Optional;

/** Which source to better where the uncertainty is in the way of a verdict. */
final class Blame {
    /** What adds less than this share of the variance is not worth naming alone. Common practice, no source. */
    private static final double SHARE_LEAST = 0.5;

    private Blame() {}

    /** {@code ; most of it is calibration of P3 (82 %)}; empty where no source stands out. */
    static String of(Estimate measured) {
        Optional<Component> most = measured.dominant().filter(part -> measured.share(part) >= SHARE_LEAST);
        return most.map(part -> "; most of the uncertainty is " + spoken(part.source()) + " ("
                        + DecisionRule.percent(measured.share(part)) + ")")
                .orElse("");
    }

    /** {@code calibration/P3} as {@code calibration of P3}; where in the run it was read is left out. */
    private static String spoken(String source) {
        String[] parts = source.split("/");
        return parts.length == 1 ? parts[0] : parts[0] + " of " + parts[1];
    }
}
