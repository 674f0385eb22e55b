package dev.lapwing.bench;

import dev.lapwing.naming.Signal;
import dev.lapwing.source.Place;
import java.util.Optional;

/**
 * A signal and the point that carries it.
 *
 * @param calibration for sampled points; empty for a digital one
 */
public record Input(Signal signal, String point, Optional<Calibration> calibration, Place place) {}
