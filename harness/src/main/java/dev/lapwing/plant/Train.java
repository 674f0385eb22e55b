package dev.lapwing.plant;

/**
 * A pneumatic train in motion: the state of every pipe, valve, reservoir, cylinder and train wire, advanced by
 * {@link #step}. What is set between two steps holds from the next one on. Vehicles are numbered from 0 at the head; a
 * cab is named by its vehicle, {@code behind} is the coupling behind that vehicle. A step allocates nothing, and equal
 * trains given equal calls have equal states to the last bit.
 *
 * <p>An index outside the train or a figure outside its range is an {@link IllegalArgumentException}. Not safe for use
 * by several threads.
 */
public final class Train {
    /** Longest time step, in s. */
    public static final double STEP_SECONDS_MAX = 0.005;

    private final TrainSpec spec;

    /** A train empty of air, wires dead, every valve shut, the compressor off. */
    public Train(TrainSpec spec) {
        this.spec = spec;
    }

    public TrainSpec spec() {
        return spec;
    }

    // --- advance ---

    /** Sets every volume to a charged, released train: gauge pressures in Pa. Begins a new mass balance. */
    public void charge(double brakePipePascals, double mainPascals) {}

    /** Advances the train by a time in s, above zero and at most {@link #STEP_SECONDS_MAX}. */
    public void step(double seconds) {}

    // --- what the cabs do ---

    /** Sets the driver's brake valve of a cab. The foremost and rearmost vehicles have theirs at the very end of the pipe. */
    public void drive(int cab, CabValve valve) {}

    /** Connects a source to a train wire in a cab, its other pole at battery minus: volts of either sign, ohms above 0. */
    public void energise(TrainWire wire, int cab, double volts, double sourceOhms) {}

    /** Disconnects the cab's source from a train wire. For the return this removes its bond to battery minus. */
    public void deenergise(TrainWire wire, int cab) {}

    /** Lets the governor run the compressor, or keeps it off. */
    public void compressor(boolean permitted) {}

    // --- events and defects ---

    /** Opens the passenger alarm valve of a vehicle to a share of 0 (shut) to 1. */
    public void alarm(int vehicle, double share) {}

    /** Opens the crew valve of a vehicle to a share of 0 (shut) to 1. */
    public void crewValve(int vehicle, double share) {}

    /** Bursts (or mends) the hose behind a vehicle: its pipe is open to atmosphere there, the next vehicle's stays joined. */
    public void burst(TrainPipe pipe, int behind, boolean burst) {}

    /** Parts the train behind a vehicle: both pipes open at both ends, every train wire open. */
    public void part(int behind) {}

    /** Joins the train again behind a vehicle: hoses whole, wires through. */
    public void couple(int behind) {}

    /** Shuts or opens the cock of a pipe at the rear end of a vehicle, which stands ahead of its hose. */
    public void cock(TrainPipe pipe, int behind, boolean shut) {}

    /** Adds a leak to atmosphere to the vehicle's standing one: sonic conductance in m³/(s·Pa), 0 ends it. */
    public void leak(Volume volume, int vehicle, double conductance) {}

    /** Multiplies the conductance of a vehicle's restriction: 1 is as specified, 0 is blocked. */
    public void choke(Passage passage, int vehicle, double factor) {}

    /** Makes a triple valve stay in release for ever, or heals it. */
    public void inertTriple(int vehicle, boolean inert) {}

    /** Takes the check valve of an EP supply reservoir away, so that air flows back into the main reservoir pipe. */
    public void checkValveMissing(int vehicle, boolean missing) {}

    /** Adds a fault to the train wires. */
    public void fault(WireFault fault) {}

    /** Takes an equal fault away; nothing happens where there is none. */
    public void mend(WireFault fault) {}

    /** Takes every wire fault away. */
    public void mendWires() {}

    // --- what can be measured ---

    /** Brake pipe at the vehicle's triple valve, gauge Pa. */
    public double brakePipePascals(int vehicle) {
        return 0;
    }

    /** Brake pipe at the driver's brake valve of a cab, gauge Pa. */
    public double cabPipePascals(int cab) {
        return 0;
    }

    /** Auxiliary reservoir, gauge Pa. */
    public double auxiliaryPascals(int vehicle) {
        return 0;
    }

    /** Brake cylinder, gauge Pa. */
    public double cylinderPascals(int vehicle) {
        return 0;
    }

    /** EP supply reservoir, gauge Pa. */
    public double supplyPascals(int vehicle) {
        return 0;
    }

    /** Main reservoir pipe, gauge Pa. */
    public double mainPipePascals(int vehicle) {
        return 0;
    }

    /** Main reservoir, gauge Pa. */
    public double mainReservoirPascals() {
        return 0;
    }

    public TripleState tripleState(int vehicle) {
        return TripleState.RELEASE;
    }

    /** Whether the application magnet valve is open. */
    public boolean applicationOpen(int vehicle) {
        return false;
    }

    /** Whether the holding magnet valve has shut the EP exhaust. */
    public boolean holdingClosed(int vehicle) {
        return false;
    }

    public boolean compressorRunning() {
        return false;
    }

    /** Voltage of a train wire in a vehicle against the return there, in V; of the return itself against battery minus. */
    public double volts(TrainWire wire, int vehicle) {
        return 0;
    }

    /** Current that a cab's source drives into a train wire, in A; 0 where it has none. */
    public double amps(TrainWire wire, int cab) {
        return 0;
    }

    /** Where the air is. */
    public MassBalance massBalance() {
        return new MassBalance(0, 0, 0, 0);
    }
}
