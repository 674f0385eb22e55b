package dev.lapwing.run;

/**
 * The level of a digital point as it was told last.
 *
 * @param on       that level
 * @param lostToUs bench time, in µs, until which a change may have been lost since; {@link Long#MIN_VALUE} if none may
 */
record WireLevel(boolean on, long lostToUs) {
    static WireLevel told(boolean on) {
        return new WireLevel(on, Long.MIN_VALUE);
    }

    /** Whether it may be another by now. */
    boolean doubted() {
        return lostToUs != Long.MIN_VALUE;
    }

    /** Once it was told again: what happened before all that was lost tells nothing of how it is now. */
    WireLevel then(long atUs, boolean level) {
        return new WireLevel(level, atUs >= lostToUs ? Long.MIN_VALUE : lostToUs);
    }

    WireLevel lost(long toUs) {
        return new WireLevel(on, Math.max(lostToUs, toUs));
    }
}
