package dev.lapwing.plant;

/** A vehicle's standing leaks to atmosphere; conductance 0 where there is none. */
public record LeakSpec(Orifice brakePipe, Orifice mainPipe, Orifice auxiliary, Orifice cylinder) {}
