package dev.lapwing.unit;

import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.DesignOption;

/**
 * What both controllers do with handle, deadman, reverser and power handle; how they sense and switch is their own.
 * With the master switch off the pipe is neither fed nor let down and the EP brake is released, but position 5 and,
 * with the reverser in a direction, the deadman stay live while the train moves.
 */
final class CabLogic {
    private final HandleCam cam;
    private final EpBrake ep;
    private final PipeControl pipe;
    private final Deadman deadman;
    private final Dump dump;
    private final EmergencyLatch emergency;
    private final ReverserInterlock reverser;
    private final TractionInterlock traction;
    private final PressureSwitch pipeCharged;
    private final boolean deadmanInstant;
    private final double standstillSpeed;
    private final double cutDemandPascals;
    private EpCommand command = EpCommand.RELEASE;

    CabLogic(Wiring wiring, UnitFigures figures, Lapping lapping) {
        var design = wiring.design();
        cam = new HandleCam(wiring.handle(), figures.of(SimulationFigure.HANDLE_DETENT));
        ep = new EpBrake(design, figures, lapping);
        pipe = new PipeControl(design, figures);
        deadmanInstant = design.is(DesignOption.DEADMAN_INSTANT);
        deadman = new Deadman(figures.of(SimulationFigure.DEADMAN_TIME), !deadmanInstant);
        dump = new Dump(design.is(DesignOption.REPRESS_STOPS_DUMP), figures.of(SimulationFigure.DUMPED_PRESSURE));
        emergency = new EmergencyLatch(
                design.is(DesignOption.EMERGENCY_LATCHED), figures.of(SimulationFigure.EMERGENCY_TIME));
        reverser = new ReverserInterlock(figures.of(SimulationFigure.REVERSER_PRESSURE));
        traction = new TractionInterlock(notches(wiring), figures.of(SimulationFigure.TRACTION_CUT_TIME));
        pipeCharged = new PressureSwitch(
                figures.of(SimulationFigure.TRACTION_CUT_PRESSURE),
                figures.of(SimulationFigure.TRACTION_RESTORE_PRESSURE));
        standstillSpeed = figures.of(SimulationFigure.STANDSTILL_SPEED);
        cutDemandPascals = figures.of(SimulationFigure.TRACTION_CUT_DEMAND);
    }

    private static int notches(Wiring wiring) {
        if (wiring.powerNotches() > UnitWire.NOTCHES_MAX) {
            throw new IllegalArgumentException("there are wires for " + UnitWire.NOTCHES_MAX
                    + " power notches, the wiring has " + wiring.powerNotches());
        }
        return wiring.powerNotches();
    }

    /** @param powered whether relays and lock magnets have a supply; brake valve and vents work without */
    void step(double nowSeconds, double stepSeconds, UnitInputs in, boolean powered, UnitOutputs out) {
        HandleZone zone = cam.zone(in.handleDegrees);
        boolean standing = standing(in);
        boolean live = in.masterOn || !standing;
        reverser.step(powered, in);
        deadman.step(stepSeconds, deadmanArmed(in, standing), in.deadmanHeld);
        if (deadman.expired()) {
            dump.open(Dump.Cause.DEADMAN);
        }
        dump.step(cam.braking(in.handleDegrees), in);
        emergency.step(nowSeconds, live && zone == HandleZone.EMERGENCY, standing);
        command = ep.step(nowSeconds, stepSeconds, zone, cam.epShare(in.handleDegrees), in);
        boolean charged = pipeCharged.follow(in.brakePipePascals);
        boolean dumps = live && dump.isOpen();
        out.drive(pipe.valve(zone, cam.serviceShare(in.handleDegrees), live && emergency.isOpen(), dumps, in));
        traction.step(nowSeconds, !charged || brakes(zone, in), in.powerNotch, powered);
        traction.drive(out);
        out.set(UnitWire.REVERSER_UNLOCKED, reverser.unlocked());
        out.set(UnitWire.WARNING_SOUNDER, powered && deadman.warning() && !dump.isOpen());
    }

    /** A direction taken in the wrong order arms nothing, unless the train moves after all. */
    private boolean deadmanArmed(UnitInputs in, boolean standing) {
        return standing ? in.masterOn && reverser.selected() : in.reverserForward || in.reverserReverse;
    }

    /** Whether anything but a low pipe forbids traction. */
    private boolean brakes(HandleZone zone, UnitInputs in) {
        boolean deadmanCuts = deadmanInstant ? !in.deadmanHeld : deadman.expired();
        return !in.masterOn
                || !reverser.selected()
                || deadmanCuts
                || dump.isOpen()
                || emergency.isOpen()
                || zone.atLeast(HandleZone.LAP)
                || ep.demandPascals() > cutDemandPascals;
    }

    /** What the EP brake shall do now. */
    EpCommand epCommand() {
        return command;
    }

    Dump dump() {
        return dump;
    }

    /** Whether a direction was selected in the right order. */
    boolean reverserSelected() {
        return reverser.selected();
    }

    boolean standing(UnitInputs in) {
        return Math.abs(in.speedMetresPerSecond) < standstillSpeed;
    }

    HandleCam cam() {
        return cam;
    }
}
