package dev.lapwing.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;

/**
 * A straight scale from values to places on paper.
 *
 * @param low  value at {@code from}
 * @param high value at {@code to}, above {@code low}
 * @param from place, in pixels
 * @param to   place, in pixels; may lie before {@code from}
 */
record Axis(double low, double high, double from, double to) {
    Axis {
        if (!(high > low)) {
            throw new IllegalArgumentException("an axis needs room: " + low + " to " + high);
        }
    }

    /** An axis whose ends are widened to the next ticks. */
    static Axis rounded(double low, double high, double from, double to, int ticks) {
        double step = step(high - low, ticks);
        return new Axis(Math.floor(low / step + 1e-9) * step, Math.ceil(high / step - 1e-9) * step, from, to);
    }

    double at(double value) {
        return from + (value - low) * (to - from) / (high - low);
    }

    /** As {@link #at}, held to the axis. */
    double within(double value) {
        return at(Math.max(low, Math.min(high, value)));
    }

    record Tick(double value, String label) {}

    /** Round values, at most about that many. */
    List<Tick> ticks(int most) {
        double step = step(high - low, most);
        int decimals = (int) Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
        List<Tick> ticks = new ArrayList<>();
        for (long i = (long) Math.ceil(low / step - 1e-9); i * step <= high + step * 1e-9; i++) {
            BigDecimal value = BigDecimal.valueOf(i * step).setScale(decimals, RoundingMode.HALF_EVEN);
            ticks.add(new Tick(i * step, value.signum() == 0 ? "0" : value.toPlainString()));
        }
        return ticks;
    }

    /** The least of 1, 2, 5 times a power of ten that gives at most that many steps. */
    private static double step(double span, int most) {
        double least = span / Math.max(1, most);
        double power = Math.pow(10, Math.floor(Math.log10(least)));
        double share = least / power;
        double factor = share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10;
        return power * factor;
    }
}
