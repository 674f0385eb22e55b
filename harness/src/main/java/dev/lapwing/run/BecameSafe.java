package dev.lapwing.run;

/** How it is told that a bench made itself safe. */
public final class BecameSafe {
    private BecameSafe() {}

    /** @param why the bench's own word for it; one that is not known is shown as it is */
    public static String told(String why) {
        String because = switch (why) {
            case "host" -> "it was told to from elsewhere";
            case "beat-lost" -> "it heard nothing from this host for too long";
            case "limit" -> "a reading left its safety limits";
            case "stop-button" -> "the stop button was pressed";
            case "fault" -> "it found a fault of its own";
            case "untold" -> "its word of why was lost on the way";
            default -> why;
        };
        return "the bench made itself safe: " + because;
    }
}
