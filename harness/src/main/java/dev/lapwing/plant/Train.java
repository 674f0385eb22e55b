package dev.lapwing.plant;

import java.util.List;

/**
 * A pneumatic train in motion: the state of every pipe, valve, reservoir, cylinder and train wire, advanced by
 * {@link #step}. What is set between two steps holds from the next one on. Vehicles are numbered from 0 at the head; a
 * cab is named by its vehicle, {@code behind} is the coupling behind that vehicle. A step allocates nothing, and equal
 * trains given equal calls have equal states to the last bit.
 *
 * <p>An index outside the train or a figure outside its range is an {@link IllegalArgumentException}. Not safe for
 * use by several threads.
 */
public final class Train {
    /** Longest time step, in s. */
    public static final double STEP_SECONDS_MAX = 0.005;

    private static final int ALARM = 0;
    private static final int CREW_VALVE = 1;
    private static final int LEAK = 2;
    private static final int LEAK_MORE = 3;
    private static final int SLOTS = 4;

    private final TrainSpec spec;
    private final int vehicles;
    private final double ambient;
    private final PipeLine brake;
    private final PipeLine main;
    private final Couplings brakeCouplings;
    private final Couplings mainCouplings;
    private final Vents brakeVents;
    private final Vents mainVents;
    private final VehicleAir air;
    private final DriverValves driverValves;
    private final MainSupply mainSupply;
    private final WireLadder wires;
    private final MagnetValves application;
    private final MagnetValves holding;
    private final double[] alarmShare;
    private final double[] crewShare;
    private double initialKilograms;
    private double deliveredKilograms;
    private double ventedKilograms;

    /** A train empty of air, wires dead, cabs closed, every valve shut, the compressor kept off. */
    public Train(TrainSpec spec) {
        this.spec = spec;
        List<VehicleSpec> specs = spec.vehicles();
        double gas = Air.GAS_CONSTANT * spec.kelvin();
        vehicles = specs.size();
        ambient = spec.ambientPascals();
        brake = new PipeLine(specs.stream().map(VehicleSpec::brakePipe).toList(), spec.cellsPerVehicle(), gas);
        main = new PipeLine(specs.stream().map(VehicleSpec::mainPipe).toList(), 1, gas);
        brakeCouplings = new Couplings(brake, specs, spec.kelvin());
        mainCouplings = new Couplings(main, specs, spec.kelvin());
        brakeVents = new Vents(SLOTS * vehicles, spec.kelvin());
        mainVents = new Vents(SLOTS * vehicles, spec.kelvin());
        air = new VehicleAir(spec);
        driverValves = new DriverValves(spec);
        mainSupply = new MainSupply(spec);
        wires = new WireLadder(spec);
        application = new MagnetValves(
                specs.stream().map(vehicle -> vehicle.ep().application()).toList());
        holding = new MagnetValves(
                specs.stream().map(vehicle -> vehicle.ep().holding()).toList());
        alarmShare = new double[vehicles];
        crewShare = new double[vehicles];
        for (int k = 0; k < vehicles; k++) {
            brakeVents.set(
                    SLOTS * k + LEAK, brake.branch(k), specs.get(k).leaks().brakePipe(), 1);
            mainVents.set(SLOTS * k + LEAK, main.branch(k), specs.get(k).leaks().mainPipe(), 1);
        }
        charge(0, 0);
    }

    public TrainSpec spec() {
        return spec;
    }

    // --- advance ---

    /**
     * Charges the train, brakes released: brake pipe and auxiliary reservoirs to one gauge pressure in Pa, main
     * reservoir, its pipe and the EP supply reservoirs to another. What is driven, energised or faulty stays so. A
     * new mass balance begins.
     */
    public void charge(double brakePipePascals, double mainPascals) {
        double pipe = Require.notNegative("brake pipe pressure", brakePipePascals, "Pa") + ambient;
        double reservoir = Require.notNegative("main reservoir pressure", mainPascals, "Pa") + ambient;
        brake.fill(pipe);
        main.fill(reservoir);
        mainSupply.fill(reservoir);
        air.charge(pipe, reservoir);
        initialKilograms = stored();
        deliveredKilograms = 0;
        ventedKilograms = 0;
    }

    /** Advances the train by a time in s, above zero and at most {@link #STEP_SECONDS_MAX}. */
    public void step(double seconds) {
        if (!(seconds > 0 && seconds <= STEP_SECONDS_MAX)) {
            throw new IllegalArgumentException(
                    "a step must be above 0 and at most " + STEP_SECONDS_MAX + " s, got " + seconds + " s");
        }
        settleWires();
        application.step(seconds);
        holding.step(seconds);
        // Every flow of a step follows from the pressures at its beginning; masses are summed, then settled to
        // pressures.
        brake.move(seconds);
        main.move(seconds);
        double vented = air.move(brake, main, application.energised, holding.energised, seconds);
        vented += driverValves.move(brake, main, seconds);
        vented += brakeVents.vent(brake, ambient, seconds) + mainVents.vent(main, ambient, seconds);
        vented += brakeCouplings.vent(ambient, seconds) + mainCouplings.vent(ambient, seconds);
        deliveredKilograms += mainSupply.move(main, seconds);
        ventedKilograms += vented;
        brake.settle();
        main.settle();
    }

    private void settleWires() {
        if (wires.settle()) {
            for (int k = 0; k < vehicles; k++) {
                application.coil(k, wires.acrossLoad(TrainWire.APPLICATION, k));
                holding.coil(k, wires.acrossLoad(TrainWire.HOLDING, k));
            }
        }
    }

    // --- what the cabs do ---

    /**
     * Sets the driver's brake valve of a cab; those of the foremost and rearmost vehicle stand at the pipe's very
     * ends.
     */
    public void drive(int cab, CabValve valve) {
        driverValves.drive(vehicle(cab), valve);
    }

    /**
     * Connects a source to a train wire in a cab, its other pole at battery minus.
     *
     * @param volts      voltage of the source, of either sign, in V
     * @param sourceOhms its resistance, above zero, in ohm
     */
    public void energise(TrainWire wire, int cab, double volts, double sourceOhms) {
        if (!(Math.abs(volts) < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("source voltage must be finite, got " + volts + " V");
        }
        wires.energise(wire, vehicle(cab), volts, Require.positive("source resistance", sourceOhms, "ohm"));
    }

    /** Disconnects the cab's source from a train wire; from the return, its bond to battery minus. */
    public void deenergise(TrainWire wire, int cab) {
        wires.deenergise(wire, vehicle(cab));
    }

    /** Lets the governor run the compressor, or keeps it off. */
    public void compressor(boolean permitted) {
        mainSupply.permit(permitted);
    }

    // --- events and defects ---

    /** Opens the passenger alarm valve of a vehicle to a share of 0 (shut) to 1. */
    public void alarm(int vehicle, double share) {
        alarmShare[vehicle(vehicle)] = Require.share("alarm valve opening", share);
        updateVents(vehicle);
    }

    /** Opens the crew valve of a vehicle to a share of 0 (shut) to 1. */
    public void crewValve(int vehicle, double share) {
        crewShare[vehicle(vehicle)] = Require.share("crew valve opening", share);
        updateVents(vehicle);
    }

    private void updateVents(int k) {
        VentSpec vents = spec.vehicles().get(k).vents();
        double alarm = alarmShare[k] * air.choke(Passage.ALARM, k);
        double crew = crewShare[k] * air.choke(Passage.CREW_VALVE, k);
        brakeVents.set(SLOTS * k + ALARM, brake.branch(k), vents.alarm(), alarm);
        brakeVents.set(SLOTS * k + CREW_VALVE, brake.branch(k), vents.crewValve(), crew);
    }

    /** Bursts or mends the hose behind a vehicle: the pipe is open to atmosphere there, and still joined. */
    public void burst(TrainPipe pipe, int behind, boolean burst) {
        couplings(pipe).burst(vehicle(behind), burst);
    }

    /** Parts the train behind a vehicle: both pipes open at both ends, every train wire open. */
    public void part(int behind) {
        part(behind, true);
    }

    /** Joins the train again behind a vehicle: hoses joined, wires through. */
    public void couple(int behind) {
        part(behind, false);
    }

    private void part(int behind, boolean parted) {
        coupling(behind);
        brakeCouplings.part(behind, parted);
        mainCouplings.part(behind, parted);
        wires.part(behind, parted);
    }

    /** Shuts or opens the cock of a pipe at the rear end of a vehicle, which stands ahead of its hose. */
    public void cock(TrainPipe pipe, int behind, boolean shut) {
        couplings(pipe).shut(coupling(behind), shut);
    }

    /** Adds a leak to a vehicle's standing one: sonic conductance in m³/(s·Pa), 0 ends it. */
    public void leak(Volume volume, int vehicle, double conductance) {
        int k = vehicle(vehicle);
        LeakSpec standing = spec.vehicles().get(k).leaks();
        switch (volume) {
            case BRAKE_PIPE ->
                brakeVents.set(SLOTS * k + LEAK_MORE, brake.branch(k), leak(standing.brakePipe(), conductance), 1);
            case MAIN_PIPE ->
                mainVents.set(SLOTS * k + LEAK_MORE, main.branch(k), leak(standing.mainPipe(), conductance), 1);
            case AUXILIARY -> air.leakAuxiliary(k, leak(standing.auxiliary(), conductance));
            case CYLINDER -> air.leakCylinder(k, leak(standing.cylinder(), conductance));
        }
    }

    private static Orifice leak(Orifice standing, double conductance) {
        return new Orifice(conductance, standing.criticalRatio());
    }

    /** Multiplies the conductance of a vehicle's restriction: 1 is as specified, 0 is blocked. */
    public void choke(Passage passage, int vehicle, double factor) {
        air.choke(passage, vehicle(vehicle), Require.notNegative("choke factor", factor, ""));
        updateVents(vehicle);
    }

    /** Makes a triple valve stay in release for ever, or heals it. */
    public void inertTriple(int vehicle, boolean inert) {
        air.triples.inert(vehicle(vehicle), inert);
    }

    /**
     * Takes the check valve of an EP supply reservoir away, so that its air flows back into the main reservoir pipe.
     */
    public void checkValveMissing(int vehicle, boolean missing) {
        air.checkMissing(vehicle(vehicle), missing);
    }

    /** Adds a fault to the train wires. */
    public void fault(WireFault fault) {
        wires.fault(fault);
    }

    /** Takes one equal fault away; nothing happens where there is none. */
    public void mend(WireFault fault) {
        wires.mend(fault);
    }

    /** Takes every wire fault away. */
    public void mendWires() {
        wires.mendAll();
    }

    // --- what can be measured ---

    /** Brake pipe at the vehicle's triple valve, gauge Pa. */
    public double brakePipePascals(int vehicle) {
        return brake.pascals[brake.branch(vehicle(vehicle))] - ambient;
    }

    /** Brake pipe at the driver's brake valve of a cab, gauge Pa. */
    public double cabPipePascals(int cab) {
        return brake.pascals[brake.cabEnd(vehicle(cab))] - ambient;
    }

    /** Auxiliary reservoir, gauge Pa. */
    public double auxiliaryPascals(int vehicle) {
        return air.auxiliary.pascals[vehicle(vehicle)] - ambient;
    }

    /** Brake cylinder, gauge Pa. */
    public double cylinderPascals(int vehicle) {
        return air.cylinders.pascals[vehicle(vehicle)] - ambient;
    }

    /** EP supply reservoir, gauge Pa. */
    public double supplyPascals(int vehicle) {
        return air.supply.pascals[vehicle(vehicle)] - ambient;
    }

    /** Main reservoir pipe, gauge Pa. */
    public double mainPipePascals(int vehicle) {
        return main.pascals[main.branch(vehicle(vehicle))] - ambient;
    }

    /** Main reservoir, gauge Pa. */
    public double mainReservoirPascals() {
        return mainSupply.pascals() - ambient;
    }

    public TripleState tripleState(int vehicle) {
        return air.triples.state[vehicle(vehicle)];
    }

    /** Whether the application magnet valve is open. */
    public boolean applicationOpen(int vehicle) {
        return application.energised[vehicle(vehicle)];
    }

    /** Whether the holding magnet valve has shut the EP exhaust. */
    public boolean holdingClosed(int vehicle) {
        return holding.energised[vehicle(vehicle)];
    }

    public boolean compressorRunning() {
        return mainSupply.running();
    }

    /**
     * Voltage of a train wire in a vehicle against the return there, in V; of the return itself against battery
     * minus.
     */
    public double volts(TrainWire wire, int vehicle) {
        settleWires();
        vehicle(vehicle);
        return wire == TrainWire.RETURN ? wires.potential(wire, vehicle) : wires.acrossLoad(wire, vehicle);
    }

    /** Current that a cab's source drives into a train wire, in A; 0 where it has none. */
    public double amps(TrainWire wire, int cab) {
        settleWires();
        return wires.amps(wire, vehicle(cab));
    }

    /** Air that a cab's driver's brake valve let out in the last step, in kg; negative where it came in. */
    public double exhaustedKilograms(int cab) {
        return driverValves.exhausted(vehicle(cab));
    }

    /** Where the air is. */
    public MassBalance massBalance() {
        return new MassBalance(initialKilograms, deliveredKilograms, ventedKilograms, stored());
    }

    private double stored() {
        return brake.stored()
                + main.stored()
                + mainSupply.stored()
                + air.auxiliary.stored()
                + air.supply.stored()
                + air.cylinders.stored();
    }

    private Couplings couplings(TrainPipe pipe) {
        return pipe == TrainPipe.BRAKE ? brakeCouplings : mainCouplings;
    }

    private int vehicle(int index) {
        return Require.index("vehicle", index, vehicles);
    }

    private int coupling(int behind) {
        return Require.index("coupling", behind, vehicles - 1);
    }
}
