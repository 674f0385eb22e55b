package dev.lapwing.unit;

/**
 * The supply of electronics: rides through an interruption shorter than its hold-up time, is dead after a longer one,
 * and starts again only at a voltage somewhat above the one that it needs to run, so that a slow ramp gives one
 * start.
 */
final class ElectronicSupply {
    /** How it stands. */
    enum State {
        DEAD,
        BOOTING,
        READY
    }

    /** Excess over the running voltage that a start needs. */
    private static final double START_FACTOR = 1.05;

    private static final double ROUNDING_SECONDS = 1e-9;

    private final double runVolts;
    private final double bootSeconds;
    private final Delayed lost;
    private State state = State.DEAD;
    private double bootedFrom;

    ElectronicSupply(double runVolts, double bootSeconds, double holdUpSeconds) {
        this.runVolts = runVolts;
        this.bootSeconds = bootSeconds;
        lost = new Delayed(holdUpSeconds, 0);
    }

    State step(double nowSeconds, double volts) {
        boolean gone = lost.follow(nowSeconds, volts < runVolts);
        switch (state) {
            case DEAD -> {
                if (!gone && volts >= START_FACTOR * runVolts) {
                    state = State.BOOTING;
                    bootedFrom = nowSeconds;
                }
            }
            case BOOTING -> {
                if (gone) {
                    state = State.DEAD;
                } else if (nowSeconds - bootedFrom >= bootSeconds - ROUNDING_SECONDS) {
                    state = State.READY;
                }
            }
            case READY -> {
                if (gone) {
                    state = State.DEAD;
                }
            }
        }
        return state;
    }
}
