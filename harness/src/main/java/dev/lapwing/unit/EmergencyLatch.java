package dev.lapwing.unit;

/**
 * Position 5: the emergency port opens a moment after the handle is there and, in some designs, stays until
 * standstill.
 */
final class EmergencyLatch {
    private final boolean latched;
    private final Delayed contact;
    private boolean open;

    /**
     * @param latched whether it stays open until the train stands and the handle has left position 5
     * @param seconds from the handle in position 5 to the port open, in s
     */
    EmergencyLatch(boolean latched, double seconds) {
        this.latched = latched;
        contact = new Delayed(seconds, 0);
    }

    void step(double nowSeconds, boolean handleInEmergency, boolean standing) {
        boolean called = contact.follow(nowSeconds, handleInEmergency);
        open = called || open && latched && !(standing && !handleInEmergency);
    }

    boolean isOpen() {
        return open;
    }
}
