package dev.lapwing.link.bench;

/** Something that is wrong now, with a point, or, if {@code point} is empty, with the bench. */
record PointFault(String point, String why) {
    /** Whatever point it is of. */
    private static final String SUPPLY = "supply";
    /** Of a limited point the limits themselves take care then, however short it is. */
    private static final String NOT_READABLE = "not-readable";

    /** Whether it ends and forbids arming where its point is limited, or is not. */
    boolean bars(boolean limited) {
        return why.equals(SUPPLY) || limited && !why.equals(NOT_READABLE);
    }
}
