package dev.lapwing.sequence;

/** Terms of a run of levels, each at a place of the handle. */
public enum StaircaseTerm {
    /** Greatest distance of a level from the straight line through them all. */
    LINEARITY("linearity", "greatest departure from a straight line"),
    /** Least step in the direction of the handle; negative if one goes the other way. */
    LEAST_STEP("least-step", "least step"),
    /** Greatest difference between the way there and the way back at one place. */
    HYSTERESIS("hysteresis", "greatest difference between the two ways"),
    /** Greatest difference between visits to one place. */
    REPEATABILITY("repeatability", "greatest difference between visits to one place"),
    /** Smallest move of the handle that is answered, and every larger one with it. */
    SMALLEST_GRADUATION("smallest-graduation", "smallest graduation that answers");

    private final String text;
    private final String spoken;

    StaircaseTerm(String text, String spoken) {
        this.text = text;
        this.spoken = spoken;
    }

    /** As it is written in a sequence. */
    public String text() {
        return text;
    }

    /** As a person says it. */
    public String spoken() {
        return spoken;
    }
}
