package dev.lapwing.plant;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One second of train time in steps of 1 ms: divide it by the score for times real time on one core. Each operation
 * begins where the one before ended, so the train is kept at what its name says.
 *
 * <p>Measured once, twelve cars, processor time of the thread on a shared machine (AMD EPYC, OpenJDK 17): running
 * 0.52 µs a step (1,900 times real time), braking 0.80 µs (1,250), lapping 0.76 µs (1,300); nothing allocated. Of a
 * step 0.09 µs are the pipes and 0.10 µs vehicles at rest; every orifice that passes air adds about 10 ns, nearly all
 * of it waiting for one square root and one division after the other, which is what limits it.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class TrainBenchmark {
    private static final double PSI = 6894.757293168361;
    private static final double UN = 110;
    private static final int STEPS = 1000;

    @Param({"4", "12"})
    private int cars;

    private Train train;
    private int second;

    @Setup
    public void charge() {
        train = new Train(spec(cars));
        train.charge(70 * PSI, 90 * PSI);
        train.compressor(true);
        train.drive(0, CabValve.feeding(70 * PSI));
    }

    /** Charged and running: the feed open, triple valves in release, grooves at rest. */
    @Benchmark
    public double running() {
        for (int i = 0; i < STEPS; i++) {
            train.step(0.001);
        }
        return train.brakePipePascals(cars - 1);
    }

    /** A minute of service and emergency applications, releases and EP applications over and over. */
    @Benchmark
    public double braking() {
        act(second++ % 60);
        for (int i = 0; i < STEPS; i++) {
            train.step(0.001);
        }
        return train.cylinderPascals(cars - 1);
    }

    /** EP self-lapping at its busiest: a command every 50 ms, and so the wires solved anew each time. */
    @Benchmark
    public double lapping() {
        for (int i = 0; i < STEPS; i++) {
            if (i % 50 == 0) {
                command(i % 200);
            }
            train.step(0.001);
        }
        return train.cylinderPascals(cars - 1);
    }

    private void act(int now) {
        switch (now) {
            case 0 -> train.drive(0, CabValve.graduated(60 * PSI));
            case 10 -> train.drive(0, CabValve.graduated(50 * PSI));
            case 20 -> train.drive(0, CabValve.feeding(70 * PSI));
            case 30 -> command(0);
            case 34 -> command(50);
            case 38 -> command(100);
            case 45 -> train.drive(0, CabValve.EMERGENCY);
            case 52 -> train.drive(0, CabValve.feeding(70 * PSI));
            default -> {}
        }
    }

    private void command(int phase) {
        if (phase == 0) {
            train.energise(TrainWire.APPLICATION, 0, UN, 0.5);
            train.energise(TrainWire.HOLDING, 0, UN, 0.5);
        } else if (phase == 50 || phase == 150) {
            train.deenergise(TrainWire.APPLICATION, 0);
            train.energise(TrainWire.HOLDING, 0, UN, 0.5);
        } else {
            train.deenergise(TrainWire.APPLICATION, 0);
            train.deenergise(TrainWire.HOLDING, 0);
        }
    }

    public static TrainSpec spec(int cars) {
        List<VehicleSpec> vehicles = new ArrayList<>();
        for (int k = 0; k < cars; k++) {
            vehicles.add(vehicle());
        }
        DriverValveSpec valve = new DriverValveSpec(orifice(3), 3 * PSI, orifice(3), 2 * PSI, orifice(25), orifice(12));
        MainSupplySpec supply = new MainSupplySpec(0, 0.4, orifice(20), 0.02, 85 * PSI, 95 * PSI);
        TrainWiresSpec wires = new TrainWiresSpec(
                Arrays.stream(TrainWire.values()).collect(Collectors.toMap(w -> w, w -> new WireSpec(0.2, 0, 1e7))),
                List.of(),
                0.1);
        return new TrainSpec(vehicles, valve, supply, wires, 2, 101_325, 293.15);
    }

    private static VehicleSpec vehicle() {
        PipeSpec pipe = new PipeSpec(22, 0.0254, 0.0005, 0.025, 3);
        MagnetValveSpec magnet = new MagnetValveSpec(66, 16, 0.045, 0.060, 600);
        return new VehicleSpec(
                pipe,
                pipe,
                0.038,
                new TripleValveSpec(
                        orifice(2.6), orifice(2.2), orifice(0.3), 1.5 * PSI, 0.3 * PSI, 0.8 * PSI, 1.5 * PSI, 52 * PSI),
                new CylinderSpec(0.002, 0.010, 3 * PSI, 8 * PSI),
                new ElectroPneumaticSpec(
                        magnet, magnet, orifice(2.6), orifice(4.5), 50 * PSI, 0.5 * PSI, false, 0.060, orifice(6)),
                new VentSpec(orifice(6), orifice(10), orifice(60)),
                new LeakSpec(orifice(0.001), orifice(0.001), orifice(0.0002), orifice(0.0002)));
    }

    private static Orifice orifice(double dm3PerSecondBar) {
        return new Orifice(dm3PerSecondBar * 1e-8, 0.3);
    }
}
