package dev.lapwing.bench;

import dev.lapwing.naming.Signal;
import java.util.Optional;

/**
 * What a reading may not leave while the bench is armed: the bench itself looks, and makes itself safe. No part of what
 * is judged, and no safety function: a relief valve is hardware.
 *
 * @param signal what is watched
 * @param point  the sampled point that carries it
 * @param lowest least count that is allowed, above the point's least; empty for no limit on that side
 * @param most   greatest count that is allowed, below the point's greatest; empty for no limit on that side
 */
public record SafetyLimit(Signal signal, String point, Optional<Integer> lowest, Optional<Integer> most) {}
