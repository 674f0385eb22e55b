package dev.lapwing.sequence;

/** Terms of a response from one state to another, after IEEE Std 181-2011 where it has them. */
public enum ResponseTerm {
    LOW_STATE("low-state", "low state"),
    HIGH_STATE("high-state", "high state"),
    /** From the stimulus until that share of the change is first reached. */
    TIME_TO_SHARE("time-to-share", "time to a share of the change"),
    /** From 10 % to 90 % of the change. */
    TRANSITION_DURATION("transition-duration", "transition duration, 10 % to 90 %"),
    /** Greatest distance beyond the last state. */
    OVERSHOOT("overshoot", "overshoot"),
    /** Greatest distance short of the last state, after the greatest one beyond it. */
    UNDERSHOOT("undershoot", "undershoot"),
    /** From 50 % of the change until it stays within the band. */
    SETTLING_DURATION("settling-duration", "settling duration from 50 %"),
    /** Time to 10 % and half of that from there to 95 %. */
    EQUIVALENT_RESPONSE_TIME("equivalent-response-time", "equivalent response time");

    private final String text;
    private final String spoken;

    ResponseTerm(String text, String spoken) {
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

    /** True where it is a time, else it is a level or a difference of levels. */
    public boolean timed() {
        return this == TIME_TO_SHARE
                || this == TRANSITION_DURATION
                || this == SETTLING_DURATION
                || this == EQUIVALENT_RESPONSE_TIME;
    }

    /** True where it may be told as a share of the change as well. */
    public boolean relative() {
        return this == OVERSHOOT || this == UNDERSHOOT;
    }
}
