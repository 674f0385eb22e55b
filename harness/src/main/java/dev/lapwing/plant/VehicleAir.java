package dev.lapwing.plant;

import java.util.List;

/** Reservoirs and cylinder of every vehicle, and the valves between them and the pipes. */
final class VehicleAir {
    private static final int PASSAGES = Passage.values().length;
    private static final int APPLY = Passage.TRIPLE_APPLY.ordinal();
    private static final int RELEASE = Passage.TRIPLE_RELEASE.ordinal();
    private static final int GROOVE = Passage.FEED_GROOVE.ordinal();
    private static final int EP_APPLY = Passage.EP_APPLY.ordinal();
    private static final int EP_EXHAUST = Passage.EP_EXHAUST.ordinal();
    private static final int CHECK = Passage.SUPPLY_CHECK.ordinal();
    private static final int SERIES_EXHAUST = PASSAGES;
    private static final int AUXILIARY_LEAK = PASSAGES + 1;
    private static final int AUXILIARY_LEAK_MORE = PASSAGES + 2;
    private static final int CYLINDER_LEAK = PASSAGES + 3;
    private static final int CYLINDER_LEAK_MORE = PASSAGES + 4;
    private static final int PORTS = PASSAGES + 5;

    final Reservoirs auxiliary;
    final Reservoirs supply;
    final Cylinders cylinders;
    final TripleValves triples;

    private final List<VehicleSpec> specs;
    private final Ports ports;
    private final double[] factor;
    private final double ambient;
    private final DoubleCheckValve doubleCheck;
    private final boolean[] exhaustsInSeries;
    private final boolean[] checkMissing;
    private final boolean[] leaking;
    private final double[] limit;
    private final double[] limitBandInverse;
    private final double[] deliveryLimit;
    /** Air that came into the cylinder in this step and has not been settled yet, in kg. */
    private double gained;
    /** Air that left to atmosphere in this step, in kg. */
    private double vented;

    VehicleAir(TrainSpec train) {
        specs = train.vehicles();
        int count = specs.size();
        double gas = Air.GAS_CONSTANT * train.kelvin();
        ambient = train.ambientPascals();
        auxiliary = new Reservoirs(
                specs.stream().mapToDouble(VehicleSpec::auxiliaryCubicMetres).toArray(), gas);
        supply = new Reservoirs(
                specs.stream().mapToDouble(v -> v.ep().supplyCubicMetres()).toArray(), gas);
        cylinders = new Cylinders(specs.stream().map(VehicleSpec::cylinder).toList(), gas, ambient);
        triples = new TripleValves(specs.stream().map(VehicleSpec::triple).toList());
        doubleCheck = new DoubleCheckValve(count);
        exhaustsInSeries = new boolean[count];
        checkMissing = new boolean[count];
        leaking = new boolean[count];
        limit = new double[count];
        limitBandInverse = new double[count];
        deliveryLimit = new double[count];
        factor = new double[count * PASSAGES];
        ports = new Ports(count * PORTS, train.kelvin());
        for (int k = 0; k < count; k++) {
            ElectroPneumaticSpec ep = specs.get(k).ep();
            exhaustsInSeries[k] = ep.exhaustsInSeries();
            limit[k] = ep.limitPascals() + ambient;
            limitBandInverse[k] = 1 / ep.limitBandPascals();
            deliveryLimit[k] = specs.get(k).triple().deliveryLimitPascals() + ambient;
            for (Passage passage : Passage.values()) {
                choke(passage, k, 1);
            }
            leak(k, AUXILIARY_LEAK, specs.get(k).leaks().auxiliary());
            leak(k, CYLINDER_LEAK, specs.get(k).leaks().cylinder());
        }
    }

    private static int port(int k, int which) {
        return k * PORTS + which;
    }

    void charge(double pipeAbsolutePascals, double mainAbsolutePascals) {
        auxiliary.fill(pipeAbsolutePascals);
        supply.fill(mainAbsolutePascals);
        cylinders.empty(ambient);
        triples.releaseAll();
        doubleCheck.reset(ambient);
    }

    void choke(Passage passage, int k, double times) {
        VehicleSpec spec = specs.get(k);
        factor[k * PASSAGES + passage.ordinal()] = times;
        Orifice orifice = switch (passage) {
            case TRIPLE_APPLY -> spec.triple().apply();
            case TRIPLE_RELEASE -> spec.triple().release();
            case FEED_GROOVE -> spec.triple().groove();
            case EP_APPLY -> spec.ep().apply();
            case EP_EXHAUST -> spec.ep().exhaust();
            case SUPPLY_CHECK -> spec.ep().supplyCheck();
            case ALARM -> spec.vents().alarm();
            case CREW_VALVE -> spec.vents().crewValve();
        };
        ports.set(port(k, passage.ordinal()), orifice, times);
        Orifice first = spec.triple().release().times(factor[k * PASSAGES + RELEASE]);
        Orifice second = spec.ep().exhaust().times(factor[k * PASSAGES + EP_EXHAUST]);
        ports.set(port(k, SERIES_EXHAUST), first.inSeriesWith(second), 1);
    }

    double choke(Passage passage, int k) {
        return factor[k * PASSAGES + passage.ordinal()];
    }

    void checkMissing(int k, boolean missing) {
        checkMissing[k] = missing;
    }

    void leakAuxiliary(int k, Orifice orifice) {
        leak(k, AUXILIARY_LEAK_MORE, orifice);
    }

    void leakCylinder(int k, Orifice orifice) {
        leak(k, CYLINDER_LEAK_MORE, orifice);
    }

    private void leak(int k, int which, Orifice orifice) {
        ports.set(port(k, which), orifice, 1);
        leaking[k] = false;
        for (int i = AUXILIARY_LEAK; i <= CYLINDER_LEAK_MORE; i++) {
            leaking[k] |= !ports.shut(port(k, i));
        }
    }

    /** Moves the air of every vehicle for a step; returns what left to atmosphere, in kg. */
    double move(PipeLine brake, PipeLine main, boolean[] applying, boolean[] holding, double seconds) {
        vented = 0;
        for (int k = 0; k < limit.length; k++) {
            int branch = brake.branch(k);
            gained = 0;
            TripleState triple = triples.move(k, auxiliary.pascals[k] - brake.pascals[branch]);
            replenish(k, main, seconds);
            if (triple == TripleState.RELEASE) {
                feedThroughGroove(k, brake, branch, seconds);
            }
            if (exhaustsInSeries[k]) {
                joinInSeries(k, triple, applying[k], holding[k], seconds);
            } else {
                joinByDoubleCheck(k, triple, applying[k], holding[k], seconds);
            }
            if (leaking[k]) {
                leak(k, seconds);
            }
            auxiliary.settle(k);
            supply.settle(k);
            if (gained != 0) {
                cylinders.mass[k] += gained;
                cylinders.settle(k);
            }
        }
        return vented;
    }

    private void replenish(int k, PipeLine main, double seconds) {
        int cell = main.branch(k);
        double slope = main.slope[cell] + supply.slope[k];
        double in = ports.pass(port(k, CHECK), 1, main.pascals[cell], supply.pascals[k], slope, seconds);
        if (checkMissing[k]) {
            in -= ports.pass(port(k, CHECK), 1, supply.pascals[k], main.pascals[cell], slope, seconds);
        }
        main.mass[cell] -= in;
        supply.mass[k] += in;
    }

    private void feedThroughGroove(int k, PipeLine brake, int cell, double seconds) {
        double pipe = brake.pascals[cell];
        double reservoir = auxiliary.pascals[k];
        double slope = brake.slope[cell] + auxiliary.slope[k];
        double in = ports.exchange(port(k, GROOVE), 1, pipe, reservoir, slope, seconds);
        brake.mass[cell] -= in;
        auxiliary.mass[k] += in;
    }

    private void joinByDoubleCheck(int k, TripleState triple, boolean applying, boolean holding, double seconds) {
        double epSide = applying ? Math.min(supply.pascals[k], limit[k]) : holding ? Double.NaN : ambient;
        double tripleSide = switch (triple) {
            case APPLY -> Math.min(auxiliary.pascals[k], deliveryLimit[k]);
            case LAP -> Double.NaN;
            case RELEASE -> ambient;
        };
        doubleCheck.move(k, cylinders.pascals[k], epSide, tripleSide);
        if (doubleCheck.onEp[k]) {
            if (applying) {
                fillFromSupply(k, seconds);
            }
            if (!holding) {
                exhaust(k, EP_EXHAUST, seconds);
            }
        } else if (triple == TripleState.APPLY) {
            fillFromAuxiliary(k, seconds);
        } else if (triple == TripleState.RELEASE) {
            exhaust(k, RELEASE, seconds);
        }
    }

    private void joinInSeries(int k, TripleState triple, boolean applying, boolean holding, double seconds) {
        if (applying) {
            fillFromSupply(k, seconds);
        }
        if (triple == TripleState.APPLY) {
            fillFromAuxiliary(k, seconds);
        } else if (triple == TripleState.RELEASE && !holding) {
            exhaust(k, SERIES_EXHAUST, seconds);
        }
    }

    private void fillFromSupply(int k, double seconds) {
        double pressure = cylinders.pascals[k];
        double share = Math.min(1, (limit[k] - pressure) * limitBandInverse[k]);
        if (share > 0) {
            double slope = supply.slope[k] + cylinders.slope[k];
            double mass = ports.pass(port(k, EP_APPLY), share, supply.pascals[k], pressure, slope, seconds);
            supply.mass[k] -= mass;
            gained += mass;
        }
    }

    private void fillFromAuxiliary(int k, double seconds) {
        if (cylinders.pascals[k] < deliveryLimit[k]) {
            double slope = auxiliary.slope[k] + cylinders.slope[k];
            double mass = ports.pass(port(k, APPLY), 1, auxiliary.pascals[k], cylinders.pascals[k], slope, seconds);
            auxiliary.mass[k] -= mass;
            gained += mass;
        }
    }

    private void exhaust(int k, int through, double seconds) {
        double mass = ports.pass(port(k, through), 1, cylinders.pascals[k], ambient, cylinders.slope[k], seconds);
        gained -= mass;
        vented += mass;
    }

    private void leak(int k, double seconds) {
        for (int which = AUXILIARY_LEAK; which <= AUXILIARY_LEAK_MORE; which++) {
            if (!ports.shut(port(k, which))) {
                double mass = ports.pass(port(k, which), 1, auxiliary.pascals[k], ambient, auxiliary.slope[k], seconds);
                auxiliary.mass[k] -= mass;
                vented += mass;
            }
        }
        for (int which = CYLINDER_LEAK; which <= CYLINDER_LEAK_MORE; which++) {
            if (!ports.shut(port(k, which))) {
                exhaust(k, which, seconds);
            }
        }
    }
}
