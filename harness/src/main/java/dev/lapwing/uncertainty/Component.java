package dev.lapwing.uncertainty;

/**
 * What one source of doubt adds to an estimate.
 *
 * @param source   key of the source: equal keys are the same cause and add as signed values, different keys are
 *                 independent (GUM 5.1 and 5.2). For example {@code calibration/P3}, {@code noise/P3/window-7},
 *                 {@code clock/bay-2}
 * @param standard signed contribution c·u (sensitivity times standard uncertainty, k = 1) in the estimate's base unit
 */
public record Component(String source, double standard) {
    public Component {
        if (!Double.isFinite(standard)) {
            throw new IllegalArgumentException("contribution of " + source + " must be finite, got " + standard);
        }
    }
}
