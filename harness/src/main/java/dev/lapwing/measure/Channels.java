package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Instrument;
import java.util.List;

/** What is claimed of single readings of a channel, and which channels a condition reads. */
final class Channels {
    private Channels() {}

    /** What all readings of that channel may have wrong alike, expanded (k = 2), base unit: calibration and drift. */
    static double expanded(Instrument instrument) {
        double calibration = instrument.calibration();
        double drift = instrument.drift();
        return 2 * Math.sqrt(calibration * calibration + drift * drift);
    }

    /** Standard deviation of one sample, base unit, rounding to counts included. */
    static double sampleNoise(Instrument instrument) {
        double rounding = Estimate.rectangular(instrument.resolution() / 2);
        return Math.sqrt(instrument.noise() * instrument.noise() + rounding * rounding);
    }

    static CrossingSearch search(Sampled sampled, Check.Crossing crossing, Window window) {
        return new CrossingSearch(
                sampled.trace(),
                crossing.level(),
                crossing.rising(),
                window,
                sampleNoise(sampled.instrument()),
                sampled.everyUs());
    }

    /** The signals that a condition reads, each once. */
    static List<Signal> of(PlannedCondition condition) {
        if (condition instanceof PlannedCondition.Above above) {
            return List.of(above.signal());
        } else if (condition instanceof PlannedCondition.Below below) {
            return List.of(below.signal());
        } else if (condition instanceof PlannedCondition.WireIs wire) {
            return List.of(wire.wire());
        } else if (condition instanceof PlannedCondition.AllOf all) {
            return all.parts().stream()
                    .flatMap(part -> of(part).stream())
                    .distinct()
                    .toList();
        }
        return ((PlannedCondition.AnyOf) condition)
                .parts().stream().flatMap(part -> of(part).stream()).distinct().toList();
    }
}
