package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.PSI;
import static dev.lapwing.plant.ReferenceTrain.UN;

import java.util.SplittableRandom;

/** Throws everything at a train that can be opened, shut, broken or mended, in an order drawn by seed. */
final class Chaos {
    private final Train train;
    private final int vehicles;
    private final SplittableRandom random;

    Chaos(Train train, long seed) {
        this.train = train;
        this.vehicles = train.spec().vehicles().size();
        this.random = new SplittableRandom(seed);
    }

    private double share() {
        return random.nextInt(3) == 0 ? 0 : random.nextInt(2) == 0 ? 1 : random.nextDouble();
    }

    private boolean coin() {
        return random.nextBoolean();
    }

    /** Does one thing more. */
    void act() {
        int k = random.nextInt(vehicles);
        int behind = random.nextInt(vehicles - 1);
        TrainPipe pipe = coin() ? TrainPipe.BRAKE : TrainPipe.MAIN;
        switch (random.nextInt(16)) {
            case 0, 1, 2 -> train.drive(coin() ? 0 : vehicles - 1, cabValve());
            case 3, 4 -> train.energise(wire(), k, random.nextDouble(-1, 1) * UN, 0.5);
            case 5 -> train.deenergise(wire(), k);
            case 6 -> train.alarm(k, share());
            case 7 -> train.crewValve(k, share());
            case 8 -> train.burst(pipe, k, random.nextInt(4) == 0);
            case 9 -> train.cock(pipe, behind, coin());
            case 10 -> part(behind);
            case 11 -> train.leak(volume(), k, share() * 1e-8);
            case 12 -> train.choke(Passage.values()[random.nextInt(Passage.values().length)], k, random.nextDouble(2));
            case 13 -> train.inertTriple(k, coin());
            case 14 -> train.checkValveMissing(k, coin());
            default -> breakOrMendWires(k, behind);
        }
    }

    private CabValve cabValve() {
        return new CabValve(share(), 70 * PSI * share(), share(), 70 * PSI * share(), share() / 2, share() / 2);
    }

    private TrainWire wire() {
        return TrainWire.values()[random.nextInt(TrainWire.values().length)];
    }

    private Volume volume() {
        return Volume.values()[random.nextInt(Volume.values().length)];
    }

    private void part(int behind) {
        if (random.nextInt(4) == 0) {
            train.part(behind);
        } else {
            train.couple(behind);
        }
    }

    private void breakOrMendWires(int k, int behind) {
        switch (random.nextInt(5)) {
            case 0 -> train.fault(new WireFault.Open(wire(), behind));
            case 1 -> train.fault(new WireFault.ShortedToPlus(wire(), k, UN, 1));
            case 2 -> train.fault(new WireFault.Crossed(TrainWire.APPLICATION, TrainWire.HOLDING, behind));
            case 3 -> train.fault(new WireFault.Bridged(TrainWire.APPLICATION, TrainWire.RETURN, k, 5));
            default -> train.mendWires();
        }
    }
}
