package dev.lapwing.uncertainty;

import dev.lapwing.quantity.Unit;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * How an uncertainty and what it leaves of a figure are printed: the uncertainty to two significant digits, rounded up,
 * the figure to the same place (JCGM 100:2008, 7.2.6). Of an interval with two sides the finer one rules the figure.
 *
 * @param unit in which all are printed
 */
public record TwoDigits(Unit unit) {
    /** Digits beyond these only come of converting units. */
    private static final MathContext CONVERTED = new MathContext(9, RoundingMode.HALF_EVEN);

    private static final MathContext UP = new MathContext(2, RoundingMode.UP);
    private static final int PLACES_MOST = 9;

    /** An uncertainty, base unit; without the unit's symbol. */
    public String of(double uncertainty) {
        BigDecimal two = up(uncertainty);
        return two.setScale(place(two), RoundingMode.UP).toPlainString();
    }

    /** A figure (base unit) that has that uncertainty, or is told from what has; without the unit's symbol. */
    public String figure(double base, Estimate of) {
        double finer = Math.min(of.above(), of.below());
        return figure(base, finer > 0 ? finer : of.expanded());
    }

    /** A figure to the place of that uncertainty, both in base units; without the unit's symbol. */
    public String figure(double base, double uncertainty) {
        return new BigDecimal(unit.fromBase(base))
                .setScale(place(up(uncertainty)), RoundingMode.HALF_EVEN)
                .toPlainString();
    }

    /** Two digits where the second is a nought too; nothing at all has none. */
    private BigDecimal up(double uncertainty) {
        BigDecimal up =
                new BigDecimal(unit.fromBase(uncertainty)).round(CONVERTED).round(UP);
        return up.signum() == 0 || up.precision() > 1 ? up : up.setScale(up.scale() + 1);
    }

    /** How many decimals the last digit is; negative for tens, hundreds and so on. */
    private static int place(BigDecimal figure) {
        return Math.min(figure.scale(), PLACES_MOST);
    }
}
