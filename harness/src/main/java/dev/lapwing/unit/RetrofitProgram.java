package dev.lapwing.unit;

import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.DesignOption;

/**
 * What the electronics do at every scan while they run: the cab's logic, and their own watch over driver and supply.
 */
final class RetrofitProgram {
    private final CabLogic cab;
    private final DriverActs acts;
    private final Vigilance vigilance;
    private final Delayed lamp;
    private final Delayed supplyAlarm;
    private final Delayed sensorsDisagree;
    private final double disagreementDegrees;
    private final double usableVolts;
    private final double brakedPascals;
    private final boolean restsAtStandstill;
    private final boolean restsWhileBraked;

    RetrofitProgram(Wiring wiring, UnitFigures figures) {
        Design design = wiring.design();
        cab = new CabLogic(
                wiring,
                figures,
                new ForeseeingLapping(
                        figures.of(SimulationFigure.LAPPING_BAND_APPLY),
                        figures.of(SimulationFigure.LAPPING_BAND_RELEASE),
                        figures.of(SimulationFigure.LAPPING_LEAD)));
        acts = new DriverActs(
                figures.of(SimulationFigure.ACTIVITY_ANGLE), design.is(DesignOption.VIGILANCE_ACT_COUNTS_ONCE));
        vigilance = new Vigilance(
                figures.of(SimulationFigure.VIGILANCE_CYCLE),
                figures.of(SimulationFigure.VIGILANCE_LIGHT),
                figures.of(SimulationFigure.VIGILANCE_SOUNDER));
        lamp = new Delayed(figures.of(SimulationFigure.LAMP_TIME));
        supplyAlarm = new Delayed(figures.of(SimulationFigure.SUPPLY_ALARM_TIME));
        sensorsDisagree = new Delayed(figures.of(SimulationFigure.SENSOR_FAULT_TIME), Double.POSITIVE_INFINITY);
        disagreementDegrees = figures.of(SimulationFigure.SENSOR_DISAGREEMENT);
        usableVolts = figures.of(SimulationFigure.LAMP_THRESHOLD) * wiring.nominalVolts();
        brakedPascals = figures.of(SimulationFigure.VIGILANCE_BRAKED_PRESSURE);
        restsAtStandstill = design.is(DesignOption.VIGILANCE_RESTS_AT_STANDSTILL);
        restsWhileBraked = design.is(DesignOption.VIGILANCE_RESTS_WHILE_BRAKED);
    }

    /**
     * @param seen    the inputs as scanned
     * @param degrees what the two handle sensors differ by
     */
    void step(double nowSeconds, double scanSeconds, UnitInputs seen, double degrees, UnitOutputs out) {
        if (sensorsDisagree.follow(nowSeconds, degrees > disagreementDegrees)) {
            cab.dump().open(Dump.Cause.FAULT);
        }
        watch(scanSeconds, seen);
        boolean wasDumped = cab.dump().isOpenBy(Dump.Cause.VIGILANCE);
        cab.step(nowSeconds, scanSeconds, seen, true, out);
        if (wasDumped && !cab.dump().isOpenBy(Dump.Cause.VIGILANCE)) {
            vigilance.restart();
        }
        show(nowSeconds, seen, out);
    }

    private void watch(double scanSeconds, UnitInputs seen) {
        boolean rests =
                restsAtStandstill && cab.standing(seen) || restsWhileBraked && seen.cylinderPascals > brakedPascals;
        boolean runs = seen.masterOn && cab.reverserSelected() && !cab.dump().isOpen() && !rests;
        vigilance.step(scanSeconds, runs, acts.step(seen));
        if (vigilance.stage() == Vigilance.Stage.DUMP) {
            cab.dump().open(Dump.Cause.VIGILANCE);
        }
    }

    private void show(double nowSeconds, UnitInputs seen, UnitOutputs out) {
        boolean dumped = cab.dump().isOpenBy(Dump.Cause.VIGILANCE);
        Vigilance.Stage stage = vigilance.stage();
        out.set(UnitWire.WARNING_LIGHT, dumped || stage != Vigilance.Stage.QUIET);
        if (stage == Vigilance.Stage.SOUNDER) {
            out.set(UnitWire.WARNING_SOUNDER, true);
        }
        boolean usable = seen.epSupplyVolts >= usableVolts;
        out.set(UnitWire.EP_SUPPLY_LAMP, lamp.follow(nowSeconds, usable));
        out.set(UnitWire.EP_SUPPLY_ALARM, supplyAlarm.follow(nowSeconds, !usable));
        out.set(UnitWire.FAULT, sensorsDisagree.isOn() || acts.stuckSinceStart());
    }

    /** What the EP brake shall do now. */
    EpCommand epCommand() {
        return cab.epCommand();
    }

    Dump dump() {
        return cab.dump();
    }
}
