package dev.lapwing.unit;

import java.util.random.RandomGenerator;

/**
 * The electronics' view of the inputs, renewed at every scan. A switch or notch counts once two scans in a row have
 * found it the same, so that a pulse shorter than a scan is never seen. The handle has two sensors with a little
 * noise; what is passed on is their mean, which stays where it is for changes within the noise.
 */
final class Scan {
    /** Change of the mean that is taken for a movement, in degrees. */
    private static final double STILL_DEGREES = 0.25;

    private static final int DEADMAN = 1;
    private static final int ACKNOWLEDGEMENT = 2;
    private static final int MASTER = 4;
    private static final int FORWARD = 8;
    private static final int REVERSE = 16;

    private final double sensorDifference;
    private final double sensorNoise;
    private final RandomGenerator random;
    private final UnitInputs seen = new UnitInputs();
    private int switchesBefore;
    private int switches;
    private int notchBefore;
    private double disagreementDegrees;

    /**
     * @param sensorDifference what the second sensor reads above the first, in degrees
     * @param sensorNoise      half width of the even noise of each, in degrees
     */
    Scan(double sensorDifference, double sensorNoise, RandomGenerator random) {
        this.sensorDifference = sensorDifference;
        this.sensorNoise = sensorNoise;
        this.random = random;
    }

    /** Forgets what it saw, as at a start, and takes the switches as it finds them. */
    void restart(UnitInputs in) {
        switchesBefore = packed(in);
        switches = switchesBefore;
        notchBefore = in.powerNotch;
        seen.handleDegrees = Double.NaN;
    }

    UnitInputs of(UnitInputs in) {
        int now = packed(in);
        int same = ~(now ^ switchesBefore);
        switches = switches & ~same | now & same;
        switchesBefore = now;
        seen.deadmanHeld = (switches & DEADMAN) != 0;
        seen.acknowledgementPressed = (switches & ACKNOWLEDGEMENT) != 0;
        seen.masterOn = (switches & MASTER) != 0;
        seen.reverserForward = (switches & FORWARD) != 0;
        seen.reverserReverse = (switches & REVERSE) != 0;
        seen.powerNotch = in.powerNotch == notchBefore ? in.powerNotch : seen.powerNotch;
        notchBefore = in.powerNotch;
        handle(in.handleDegrees);
        seen.speedMetresPerSecond = in.speedMetresPerSecond;
        seen.epSupplyVolts = in.epSupplyVolts;
        seen.controlSupplyVolts = in.controlSupplyVolts;
        seen.brakePipePascals = in.brakePipePascals;
        seen.cylinderPascals = in.cylinderPascals;
        seen.mainReservoirPascals = in.mainReservoirPascals;
        return seen;
    }

    private static int packed(UnitInputs in) {
        return (in.deadmanHeld ? DEADMAN : 0)
                | (in.acknowledgementPressed ? ACKNOWLEDGEMENT : 0)
                | (in.masterOn ? MASTER : 0)
                | (in.reverserForward ? FORWARD : 0)
                | (in.reverserReverse ? REVERSE : 0);
    }

    private void handle(double degrees) {
        double first = degrees + noise();
        double second = degrees + sensorDifference + noise();
        disagreementDegrees = Math.abs(second - first);
        double mean = (first + second) / 2;
        if (!(Math.abs(mean - seen.handleDegrees) <= STILL_DEGREES)) {
            seen.handleDegrees = mean;
        }
    }

    private double noise() {
        return sensorNoise * (2 * random.nextDouble() - 1);
    }

    /** What the two handle sensors differed by at the last scan, in degrees. */
    double disagreementDegrees() {
        return disagreementDegrees;
    }
}
