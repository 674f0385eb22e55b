package dev.lapwing.plant;

/** Main reservoir, compressor and governor. */
final class MainSupply {
    private final Ports delivery;
    private final double slope;
    private final double ambient;
    private final double cutIn;
    private final double cutOut;
    private final double intake;
    private final int vehicle;
    private double mass;
    private double pascals;
    private boolean permitted;
    private boolean running;

    MainSupply(TrainSpec train) {
        MainSupplySpec spec = train.mainSupply();
        double gas = Air.GAS_CONSTANT * train.kelvin();
        ambient = train.ambientPascals();
        slope = gas / spec.reservoirCubicMetres();
        cutIn = spec.cutInPascals() + ambient;
        cutOut = spec.cutOutPascals() + ambient;
        intake = spec.freeAirCubicMetresPerSecond() * ambient / gas;
        vehicle = spec.vehicle();
        delivery = new Ports(1, train.kelvin());
        delivery.set(0, spec.delivery(), 1);
    }

    void fill(double absolutePascals) {
        mass = absolutePascals / slope;
        pascals = absolutePascals;
    }

    void permit(boolean now) {
        permitted = now;
        running &= now;
    }

    boolean running() {
        return running;
    }

    double pascals() {
        return pascals;
    }

    double stored() {
        return mass;
    }

    /** Delivers to the main reservoir pipe for a step; returns what the compressor took in, in kg. */
    double move(PipeLine main, double seconds) {
        int cell = main.branch(vehicle);
        double pipe = main.pascals[cell];
        double slopes = slope + main.slope[cell];
        double out = delivery.exchange(0, 1, pascals, pipe, slopes, seconds);
        main.mass[cell] += out;
        running = permitted && (running ? pascals < cutOut : pascals < cutIn);
        double in = running ? intake * seconds : 0;
        mass += in - out;
        pascals = mass * slope;
        return in;
    }
}
