package dev.lapwing.quantity;

/** Text that was to be a figure with its unit and is not. */
public final class UnreadableQuantity extends Exception {
    private static final long serialVersionUID = 1;

    private final String unknownUnit;

    UnreadableQuantity(String found, String unknownUnit) {
        super(found);
        this.unknownUnit = unknownUnit;
    }

    /** The unit that is not known, or an empty text if something else is wrong. */
    public String unknownUnit() {
        return unknownUnit;
    }
}
