package dev.lapwing.run;

/** What becomes of the bench when a run has come to its end without trouble. In trouble it is made safe in any case. */
public enum Afterwards {
    /** All outputs at their safe values, disarmed. */
    SAFE,
    /** Armed, outputs as they are: the next sequence goes on from here. */
    STAY_ARMED
}
