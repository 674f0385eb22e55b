package dev.lapwing.link.bench;

/** Something that is wrong now, with a point, or, if {@code point} is empty, with the bench. */
record PointFault(String point, String why) {
    /** Ends and forbids arming, whatever point it is of. */
    static final String SUPPLY = "supply";
}
