package dev.lapwing.plant;

import java.util.Arrays;

/** The driver's brake valves of all cabs; a closed cab's valve is in lap and costs no time in a step. */
final class DriverValves {
    private static final int FEED = 0;
    private static final int SERVICE = 1;
    private static final int EMERGENCY = 2;
    private static final int DUMP = 3;

    private final Ports ports;
    private final double ambient;
    private final double feedBandInverse;
    private final double serviceBandInverse;
    private final CabValve[] valve;
    private final int[] active;
    private int activeCount;
    /** Air that the cab's valve let out in the last step, in kg. */
    private final double[] exhausted;

    DriverValves(TrainSpec train) {
        DriverValveSpec spec = train.driverValve();
        ambient = train.ambientPascals();
        feedBandInverse = 1 / spec.feedBandPascals();
        serviceBandInverse = 1 / spec.serviceBandPascals();
        ports = new Ports(4, train.kelvin());
        ports.set(FEED, spec.feed(), 1);
        ports.set(SERVICE, spec.service(), 1);
        ports.set(EMERGENCY, spec.emergency(), 1);
        ports.set(DUMP, spec.dump(), 1);
        valve = new CabValve[train.vehicles().size()];
        active = new int[valve.length];
        exhausted = new double[valve.length];
        Arrays.fill(valve, CabValve.LAP);
    }

    void drive(int cab, CabValve now) {
        valve[cab] = now;
        exhausted[cab] = 0;
        activeCount = 0;
        for (int k = 0; k < valve.length; k++) {
            if (!valve[k].equals(CabValve.LAP)) {
                active[activeCount++] = k;
            }
        }
    }

    /** Feeds and vents the brake pipe for a step; returns what left to atmosphere (or came in, negative), in kg. */
    double move(PipeLine brake, PipeLine main, double seconds) {
        double vented = 0;
        for (int i = 0; i < activeCount; i++) {
            int cab = active[i];
            CabValve now = valve[cab];
            int cell = brake.cabEnd(cab);
            feed(now, brake, cell, main, main.cabEnd(cab), seconds);
            double out = vent(now, brake.pascals[cell], brake.slope[cell], seconds);
            brake.mass[cell] -= out;
            exhausted[cab] = out;
            vented += out;
        }
        return vented;
    }

    private void feed(CabValve now, PipeLine brake, int cell, PipeLine main, int mainCell, double seconds) {
        double share = now.feedShare() * throttle(now.feedPascals() + ambient - brake.pascals[cell], feedBandInverse);
        if (share > 0) {
            double slope = brake.slope[cell] + main.slope[mainCell];
            double in = ports.pass(FEED, share, main.pascals[mainCell], brake.pascals[cell], slope, seconds);
            main.mass[mainCell] -= in;
            brake.mass[cell] += in;
        }
    }

    private double vent(CabValve now, double pressure, double slope, double seconds) {
        double out = 0;
        double service = now.serviceShare() * throttle(pressure - ambient - now.servicePascals(), serviceBandInverse);
        if (service > 0) {
            out += ports.pass(SERVICE, service, pressure, ambient, slope, seconds);
        }
        if (now.emergencyShare() > 0) {
            out += ports.exchange(EMERGENCY, now.emergencyShare(), pressure, ambient, slope, seconds);
        }
        if (now.dumpShare() > 0) {
            out += ports.exchange(DUMP, now.dumpShare(), pressure, ambient, slope, seconds);
        }
        return out;
    }

    private static double throttle(double difference, double bandInverse) {
        return Math.max(0, Math.min(1, difference * bandInverse));
    }

    /** Air that a cab's valve let out in the last step, in kg. */
    double exhausted(int cab) {
        return exhausted[cab];
    }
}
