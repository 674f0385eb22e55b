package dev.lapwing.unit;

import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;

/**
 * The classic five-position controller: cams, relays and contactors. Brake valve, emergency port and deadman vent are
 * worked by the handle and by air and need no supply; contactors, lock and traction relays fall without one.
 */
final class ClassicController implements ControllerUnderTest {
    private final CabLogic cab;
    private final EpContactors contactors;
    private final Delayed relays;
    private final Delayed lamp;
    private final double lampVolts;
    private final double controlVolts;

    ClassicController(Wiring wiring, UnitFigures figures) {
        double contactorSeconds = figures.of(SimulationFigure.CONTACTOR_TIME);
        cab = new CabLogic(
                wiring,
                figures,
                new RelayLapping(
                        figures.of(SimulationFigure.LAPPING_BAND_APPLY),
                        figures.of(SimulationFigure.LAPPING_BAND_RELEASE)));
        contactors = new EpContactors(contactorSeconds);
        relays = new Delayed(contactorSeconds);
        lamp = new Delayed(figures.of(SimulationFigure.LAMP_TIME));
        lampVolts = figures.of(SimulationFigure.LAMP_THRESHOLD) * wiring.nominalVolts();
        controlVolts = figures.of(SimulationFigure.CONTROL_MINIMUM) * wiring.nominalVolts();
    }

    @Override
    public void step(double nowSeconds, double stepSeconds, UnitInputs in, UnitOutputs out) {
        boolean supplied = in.controlSupplyVolts >= controlVolts;
        cab.step(nowSeconds, stepSeconds, in, relays.follow(nowSeconds, supplied), out);
        contactors.step(nowSeconds, cab.epCommand(), supplied, out);
        // Fed by the EP supply itself, whatever the cab does.
        out.set(UnitWire.EP_SUPPLY_LAMP, lamp.follow(nowSeconds, in.epSupplyVolts >= lampVolts));
    }
}
