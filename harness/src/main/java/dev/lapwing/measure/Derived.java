package dev.lapwing.measure;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;

/** Estimates worked out from others; contributions of one source go on being those of one source. */
final class Derived {
    private Derived() {}

    /** Contributions multiplied. */
    static List<Component> scaled(List<Component> components, double factor) {
        return components.stream().map(c -> c.times(factor)).toList();
    }

    /** One by the other, as a share; to first order (GUM 5.1.2). */
    static Estimate ratio(Estimate part, Estimate whole) {
        double ratio = part.value() / whole.value();
        Estimate first = part.times(1 / whole.value(), Dimension.RATIO);
        Estimate second = whole.times(ratio / whole.value(), Dimension.RATIO);
        return new Estimate(ratio, Dimension.RATIO, first.minus(second).components());
    }
}
