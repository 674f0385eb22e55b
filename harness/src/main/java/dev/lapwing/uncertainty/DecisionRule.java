package dev.lapwing.uncertainty;

/** How a measured value with its uncertainty is held against a limit; agreed before measuring (ILAC-G8, JCGM 106). */
public enum DecisionRule {
    /**
     * Guard band w = U (k = 2) on both sides of each limit: inside by U passes, outside by U fails, else
     * inconclusive.
     */
    GUARDED("guarded"),
    /** The value alone is compared with the limit. Never for a dump time. */
    SIMPLE("simple");

    private final String text;

    DecisionRule(String text) {
        this.text = text;
    }

    public String text() {
        return text;
    }
}
