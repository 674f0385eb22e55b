package dev.lapwing.uncertainty;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What one source of doubt adds to an estimate.
 *
 * @param source   key of the source: equal keys are the same cause and add as signed values, different keys are
 *                 independent (JCGM 100:2008, 5.1 and 5.2). For example {@code calibration/P3},
 *                 {@code noise/P3/window-7}, {@code clock/bay-2}
 * @param standard signed contribution c·u (sensitivity times standard uncertainty, k = 1) in the estimate's base unit
 * @param input    the source itself, before its sensitivity; empty where only the contribution is known, which then
 *                 counts as type B, normal and exact
 */
public record Component(String source, double standard, Optional<Input> input) {
    /**
     * Behind the key of a source: what of it goes along a channel's range ({@link Along}). Independent of the rest of
     * it, and told as one line with it.
     */
    public static final String ALONG = "/along the range";

    public Component {
        if (!Double.isFinite(standard)) {
            throw new IllegalArgumentException("contribution of " + source + " must be finite, got " + standard);
        }
    }

    /** A contribution of which only the size is known. */
    public Component(String source, double standard) {
        this(source, standard, Optional.empty());
    }

    /** What an input adds by that sensitivity: base units of the estimate for one of the input's. */
    public static Component of(String source, double sensitivity, Input input) {
        return new Component(source, sensitivity * input.standard(), Optional.of(input));
    }

    /** Base units of the estimate for one of the input; empty where the input is not known, or is not in doubt. */
    public OptionalDouble sensitivity() {
        return input.filter(in -> in.standard() > 0)
                .map(in -> OptionalDouble.of(standard / in.standard()))
                .orElse(OptionalDouble.empty());
    }

    public Evaluation evaluation() {
        return input.map(Input::evaluation).orElse(Evaluation.B);
    }

    public Distribution distribution() {
        return input.map(Input::distribution).orElse(Distribution.NORMAL);
    }

    /** Empty where its size is taken as exact. */
    public OptionalDouble degreesOfFreedom() {
        return input.map(Input::degreesOfFreedom).orElse(OptionalDouble.empty());
    }

    /** The same source with its contribution multiplied. */
    public Component times(double factor) {
        return new Component(source, factor * standard, input);
    }

    /** Key of the line that it is told in. */
    String line() {
        return source.endsWith(ALONG) ? source.substring(0, source.length() - ALONG.length()) : source;
    }

    /** The line that both are told in: independent parts of one source, with the sign of the first. */
    Component beside(Component other) {
        double both = Math.copySign(StrictMath.hypot(standard, other.standard), standard);
        return new Component(line(), both, input.or(() -> other.input));
    }

    /** What both add, which must be of one source. What is known of the source from either is kept. */
    Component plus(Component other) {
        return new Component(source, standard + other.standard, input.or(() -> other.input));
    }
}
