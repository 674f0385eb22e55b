package dev.lapwing.link;

/** Why an armed bench became safe. */
public enum SafeReason {
    HOST("host"),
    BEAT_LOST("beat-lost"),
    LIMIT("limit"),
    STOP_BUTTON("stop-button"),
    FAULT("fault");

    private final String word;

    SafeReason(String word) {
        this.word = word;
    }

    /** As it stands in a message. */
    public String word() {
        return word;
    }
}
