package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Estimate;

/**
 * The figures of one finding as every report prints them; empty where there is none. Measured value, limit and margin
 * share a unit, unless what was reached is of another kind than what was asked for: a level, where a time was.
 *
 * @param measured with its expanded uncertainty (k = 2)
 * @param limit    what was allowed
 * @param margin   signed distance to the limit
 * @param ofLimit  prints further figures of the limit
 * @param ofValue  prints further figures of the measured value
 */
record FindingFigures(String measured, String limit, String margin, Figures ofLimit, Figures ofValue) {

    static FindingFigures of(Finding finding, PressureDisplay display) {
        boolean alike = comparable(finding);
        double value = finding.measured().map(e -> Math.abs(e.value())).orElse(0.0);
        double end = finding.limit().map(FindingFigures::largestEnd).orElse(0.0);
        Figures ofLimit = Figures.of(
                finding.limit().map(Limit::dimension).orElse(Dimension.COUNT),
                alike ? Math.max(value, end) : end,
                display);
        Figures ofValue = alike
                ? ofLimit
                : Figures.of(finding.measured().map(Estimate::dimension).orElse(Dimension.COUNT), value, display);
        return new FindingFigures(
                finding.measured().map(ofValue::measured).orElse(""),
                finding.limit().map(ofLimit::limit).orElse(""),
                alike && finding.margin().isPresent()
                        ? ofValue.margin(
                                finding.margin().getAsDouble(),
                                finding.measured().get())
                        : "",
                ofLimit,
                ofValue);
    }

    /** True if there is a measured value and a limit, both of one dimension. */
    static boolean comparable(Finding finding) {
        return finding.measured().isPresent()
                && finding.limit().isPresent()
                && finding.measured().get().dimension() == finding.limit().get().dimension();
    }

    private static double largestEnd(Limit limit) {
        return Math.max(
                Math.abs(limit.lower().orElse(0)), Math.abs(limit.upper().orElse(0)));
    }
}
