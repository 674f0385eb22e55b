package dev.lapwing.plant;

/** Positions of a triple valve. */
public enum TripleState {
    RELEASE,
    APPLY,
    LAP
}
