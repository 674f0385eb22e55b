package dev.lapwing.unit;

import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.plant.CabValve;
import dev.lapwing.plant.Train;
import dev.lapwing.plant.TrainBenchmark;
import dev.lapwing.plant.TrainWire;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
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
 * One second of a controller in steps of 1 ms, alone and with the twelve cars that it drives, through a minute of EP
 * staircase, service and emergency braking over and over: divide a second by the score for times real time on one core.
 * A step allocates nothing unless the handle moves.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class UnitBenchmark {
    private static final double PSI = 6894.757293168361;
    private static final double UN = 110;
    private static final int STEPS = 1000;
    /** Handle angle in degrees for each five seconds of the minute. */
    private static final double[] HANDLE = {0, 10, 20, 30, 40, 20, 0, 70, 85, 0, 105, 0};

    @Param({"CLASSIC", "RETROFIT"})
    private ControllerKind kind;

    private ControllerUnderTest unit;
    private final UnitInputs in = new UnitInputs();
    private final UnitOutputs out = new UnitOutputs();
    private Train train;
    private CabValve driven = CabValve.LAP;
    private long steps;

    @Setup
    public void open() {
        train = new Train(TrainBenchmark.spec(12));
        train.charge(70 * PSI, 90 * PSI);
        train.compressor(true);
        unit = ControllerUnderTest.of(kind, wiring(), figures(), new SplittableRandom(1));
        in.controlSupplyVolts = UN;
        in.epSupplyVolts = UN;
        in.masterOn = true;
        in.deadmanHeld = true;
        in.brakePipePascals = 70 * PSI;
    }

    /** The controller alone. */
    @Benchmark
    public UnitOutputs unit() {
        for (int i = 0; i < STEPS; i++) {
            handle();
            in.cylinderPascals =
                    out.isOn(UnitWire.APPLICATION) ? in.cylinderPascals + 140 : in.cylinderPascals * 0.9999;
            unit.step(++steps * 0.001, 0.001, in, out);
        }
        return out;
    }

    /** The controller and the train. */
    @Benchmark
    public double unitAndTrain() {
        for (int i = 0; i < STEPS; i++) {
            handle();
            in.brakePipePascals = train.cabPipePascals(0);
            in.cylinderPascals = train.cylinderPascals(0);
            boolean applied = out.isOn(UnitWire.APPLICATION);
            boolean held = out.isOn(UnitWire.HOLDING);
            unit.step(++steps * 0.001, 0.001, in, out);
            energise(TrainWire.APPLICATION, applied, out.isOn(UnitWire.APPLICATION));
            energise(TrainWire.HOLDING, held, out.isOn(UnitWire.HOLDING));
            if (out.valve() != driven) {
                driven = out.valve();
                train.drive(0, driven);
            }
            train.step(0.001);
        }
        return train.cylinderPascals(11);
    }

    private void handle() {
        in.handleDegrees = HANDLE[(int) (steps / (5 * STEPS) % HANDLE.length)];
    }

    private void energise(TrainWire wire, boolean before, boolean now) {
        if (now && !before) {
            train.energise(wire, 0, UN, 0.5);
        } else if (before && !now) {
            train.deenergise(wire, 0);
        }
    }

    private static Wiring wiring() {
        Handle handle = new Handle(
                Map.of("release", 0.0, "full-ep", 40.0, "lap", 55.0, "full-service", 85.0, "emergency", 105.0),
                Map.of(
                        "ep-application", new Handle.Arc("release", "full-ep"),
                        "automatic-application", new Handle.Arc("lap", "full-service")));
        Design design = new Design(Arrays.stream(DesignFlag.values())
                .map(flag -> flag.options().get(0))
                .collect(Collectors.toSet()));
        return new Wiring(12, UN, handle, 4, List.of(), Set.of(), design);
    }

    private static Map<SimulationFigure, Double> figures() {
        Map<SimulationFigure, Double> figures = new EnumMap<>(SimulationFigure.class);
        for (SimulationFigure figure : ControllerUnderTest.figures(ControllerKind.RETROFIT)) {
            figures.put(
                    figure,
                    switch (figure.dimension()) {
                        case PRESSURE -> pressure(figure);
                        case TIME -> time(figure);
                        case NOMINAL_SHARE -> 0.7;
                        case ANGLE -> figure == SimulationFigure.SENSOR_DISAGREEMENT ? 5.0 : 0.1;
                        default -> 0.0;
                    });
        }
        return figures;
    }

    private static double pressure(SimulationFigure figure) {
        return PSI
                * switch (figure) {
                    case FEED_PRESSURE -> 70;
                    case FULL_SERVICE_PRESSURE, EP_FULL_PRESSURE -> 50;
                    case LAPPING_BAND_APPLY, LAPPING_BAND_RELEASE -> 1;
                    case FEEDBACK_ERROR -> 0;
                    case DUMPED_PRESSURE -> 9;
                    default -> 60;
                };
    }

    private static double time(SimulationFigure figure) {
        return switch (figure) {
            case SCAN_TIME, CONTACTOR_TIME -> 0.005;
            case LAPPING_LEAD -> 0.055;
            case VIGILANCE_CYCLE -> 30;
            default -> 0.1;
        };
    }
}
