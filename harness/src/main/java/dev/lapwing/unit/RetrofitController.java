package dev.lapwing.unit;

import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.plant.CabValve;
import java.util.random.RandomGenerator;

/**
 * The electronic controller for the same train. Until it is ready, and whenever it has lost its supply for longer
 * than it can ride through, every wire is off; in a cab that is in use, the vent stands open, and stays open after
 * the start until it is reset in the stated order. The emergency contact of the handle works the emergency port past
 * the electronics.
 */
final class RetrofitController implements ControllerUnderTest {
    private static final double ROUNDING_SECONDS = 1e-9;
    private static final UnitWire[] WIRES = UnitWire.values();

    private final Wiring wiring;
    private final UnitFigures figures;
    private final HandleCam contacts;
    private final ElectronicSupply supply;
    private final EpContactors drivers;
    private final Scan scan;
    private final double scanSeconds;
    private final double standstillSpeed;
    private RetrofitProgram program;
    private ElectronicSupply.State state = ElectronicSupply.State.DEAD;
    private double scannedAt;

    RetrofitController(Wiring wiring, UnitFigures figures, RandomGenerator random) {
        this.wiring = wiring;
        this.figures = figures;
        contacts = new HandleCam(wiring.handle(), figures.of(SimulationFigure.HANDLE_DETENT));
        supply = new ElectronicSupply(
                figures.of(SimulationFigure.CONTROL_MINIMUM) * wiring.nominalVolts(),
                figures.of(SimulationFigure.BOOT_TIME),
                figures.of(SimulationFigure.HOLD_UP_TIME));
        drivers = new EpContactors(figures.of(SimulationFigure.CONTACTOR_TIME));
        scan = new Scan(
                figures.of(SimulationFigure.SENSOR_DIFFERENCE), figures.of(SimulationFigure.SENSOR_NOISE), random);
        scanSeconds = figures.of(SimulationFigure.SCAN_TIME);
        standstillSpeed = figures.of(SimulationFigure.STANDSTILL_SPEED);
        program = new RetrofitProgram(wiring, figures);
    }

    @Override
    public void step(double nowSeconds, double stepSeconds, UnitInputs in, UnitOutputs out) {
        ElectronicSupply.State before = state;
        state = supply.step(nowSeconds, in.controlSupplyVolts);
        boolean ready = state == ElectronicSupply.State.READY;
        if (!ready) {
            safe(in, out);
        } else if (before != ElectronicSupply.State.READY) {
            start(nowSeconds, in);
        } else if (nowSeconds - scannedAt >= scanSeconds - ROUNDING_SECONDS) {
            program.step(nowSeconds, nowSeconds - scannedAt, scan.of(in), scan.disagreementDegrees(), out);
            scannedAt = nowSeconds;
        }
        drivers.step(nowSeconds, program.epCommand(), ready, out);
    }

    /** Nothing is remembered from before: the program begins anew, with the vent open where the cab is in use. */
    private void start(double nowSeconds, UnitInputs in) {
        program = new RetrofitProgram(wiring, figures);
        scan.restart(in);
        scannedAt = nowSeconds;
        if (inUse(in)) {
            program.dump().open(Dump.Cause.RESTART);
        }
    }

    private void safe(UnitInputs in, UnitOutputs out) {
        for (UnitWire wire : WIRES) {
            out.set(wire, false);
        }
        boolean handle = contacts.zone(in.handleDegrees) == HandleZone.EMERGENCY && (in.masterOn || moving(in));
        CabValve dead = inUse(in) ? CabValve.DUMP : CabValve.LAP;
        out.drive(handle ? CabValve.EMERGENCY : dead);
    }

    private boolean inUse(UnitInputs in) {
        boolean selected = in.reverserForward || in.reverserReverse;
        return selected && (in.masterOn || moving(in)) || in.masterOn && moving(in);
    }

    private boolean moving(UnitInputs in) {
        return Math.abs(in.speedMetresPerSecond) >= standstillSpeed;
    }
}
