package dev.lapwing.bench;

import dev.lapwing.naming.Signal;
import dev.lapwing.source.Place;
import java.util.Optional;

/**
 * A signal and the point that carries it.
 *
 * @param calibration for sampled points; empty for a digital one
 * @param tube        between the tapping and a pressure transducer
 */
public record Input(Signal signal, String point, Optional<Calibration> calibration, Tube tube, Place place) {
    public Input {
        // Plans that were recorded before there were tubes name none.
        tube = Optional.ofNullable(tube).orElse(Tube.NONE);
    }

    /** Without a tube. */
    public Input(Signal signal, String point, Optional<Calibration> calibration, Place place) {
        this(signal, point, calibration, Tube.NONE, place);
    }
}
