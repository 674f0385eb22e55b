package dev.lapwing.plant;

/** A vehicle's restrictions that a defect may narrow or widen. */
public enum Passage {
    TRIPLE_APPLY,
    TRIPLE_RELEASE,
    FEED_GROOVE,
    EP_APPLY,
    EP_EXHAUST,
    SUPPLY_CHECK,
    ALARM,
    CREW_VALVE
}
