package dev.lapwing.naming;

/** The kinds of two-state things that a bench drives, and what 1 means. */
public enum SwitchKind {
    /** 1 held, 0 released. */
    DEADMAN("deadman"),
    /** 1 pressed. */
    ACKNOWLEDGEMENT("acknowledgement"),
    /** 1 on: the cab under test is open. */
    MASTER_SWITCH("master-switch"),
    /** Of {@code forward} or {@code reverse}; 1 selected. Neither selected is off. */
    REVERSER("reverser"),
    /** Of a wire's name; 1: the bench feeds that train wire from another cab. */
    WIRE_FEED("wire-feed"),
    /** Of {@code vehicle-N}; 1: the passenger alarm valve there is open. */
    ALARM_VALVE("alarm-valve"),
    /** Of {@code vehicle-N}; 1: the crew's emergency valve there is open. */
    CREW_VALVE("crew-valve"),
    /** Of {@code brake-pipe-behind-N} or {@code main-reservoir-pipe-behind-N}; 1: that hose is burst. */
    HOSE_BURST("hose-burst"),
    /** Of {@code behind-N}; 1: the train is parted there. */
    PARTING("parting"),
    /** Of {@code brake-pipe-behind-N} or {@code main-reservoir-pipe-behind-N}; 1: the cock there is shut. */
    COCK("cock"),
    /** Of {@code far}; 1: the other cab's brake valve charges the pipe as well. */
    OTHER_CAB_CHARGE("other-cab-charge");

    private final String text;

    SwitchKind(String text) {
        this.text = text;
    }

    public String text() {
        return text;
    }
}
