package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.uncertainty.Normal;
import dev.lapwing.uncertainty.Streams;
import java.util.List;

/**
 * An analogue input with what it gets wrong: a constant error, a wrong gain, noise, whole counts, its range, and a late
 * stamp.
 */
final class Transducer {
    private final Input input;
    private final Calibration calibration;
    private final int least;
    private final int most;
    private final double error;
    private final double middle;
    /** Share of its distance from the middle by which a value is read too far from it. */
    private final double gain;

    private final double noise;
    private final long lagNs;
    private final Normal normal;

    Transducer(Input input, Point point, LinkChoice.Simulated figures, Streams streams) throws BenchFailure {
        this.input = input;
        calibration = input.calibration()
                .orElseThrow(() ->
                        new BenchFailure(input.place() + ": '" + input.signal().key()
                                + "' is sampled and needs a calibration; name one of those in 'calibrations'"));
        least = point.min();
        most = point.max();
        List<Calibration.Pair> pairs = calibration.points();
        double first = pairs.get(0).value();
        double last = pairs.get(pairs.size() - 1).value();
        double range = Math.abs(last - first);
        middle = first + (last - first) / 2;
        gain = figures.spanError().orElse(0) * new Normal(streams.of("span-error/" + point.name())).next();
        error = figures.transducerError() * range * new Normal(streams.of("transducer-error/" + point.name())).next();
        noise = figures.transducerNoise() * range;
        normal = new Normal(streams.of("transducer-noise/" + point.name()));
        double offUs = drawn(point.stampUs(), streams, "stamp/" + point.name())
                + drawn(input.tube().withinUs(), streams, "tube/" + point.name());
        lagNs = Math.round((point.filterUs() + input.tube().delayUs() + offUs) * 1e3);
    }

    /** Evenly within that bound. */
    private static double drawn(double bound, Streams streams, String name) {
        return bound * (2 * streams.of(name).nextDouble() - 1);
    }

    Input input() {
        return input;
    }

    /** How much later than the event at the tapping the stamp is, in ns; negative if the stamp is earlier. */
    long lagNs() {
        return lagNs;
    }

    /** Takes one sample of a true value in the base unit of the signal. */
    int sample(double truth) {
        long counts = Math.round(calibration.counts(truth + error + gain * (truth - middle) + noise * normal.next()));
        return (int) Math.max(least, Math.min(most, counts));
    }
}
