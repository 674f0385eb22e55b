package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.PSI;
import static dev.lapwing.plant.ReferenceTrain.UN;
import static dev.lapwing.plant.ReferenceTrain.apply;
import static dev.lapwing.plant.ReferenceTrain.charged;
import static dev.lapwing.plant.ReferenceTrain.hold;
import static dev.lapwing.plant.ReferenceTrain.release;
import static dev.lapwing.plant.Steps.run;
import static dev.lapwing.plant.Steps.until;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ElectroPneumaticBrakeTest {
    private static final CabValve FULL_SERVICE = CabValve.graduated(50 * PSI);

    /** Four vehicles with their exhausts in series and a limited automatic delivery. */
    private static Train inSeries() {
        List<VehicleSpec> specs = IntStream.range(0, 4)
                .mapToObj(k -> TrainConservationTest.inSeries(ReferenceTrain.vehicle(k)))
                .toList();
        Train train = new Train(ReferenceTrain.train(specs, 2));
        train.charge(70 * PSI, 90 * PSI);
        return train;
    }

    private static void applyTo(Train train, double psi) {
        apply(train);
        until(train, 5, () -> train.cylinderPascals(0) >= psi * PSI);
        hold(train);
        run(train, 2);
    }

    @Test
    void theLimiterEndsAnApplicationThatIsLeftOn() {
        Train train = charged(4);
        apply(train);
        run(train, 60);
        for (int k = 0; k < 4; k++) {
            assertEquals(50, train.cylinderPascals(k) / PSI, 0.1);
        }
    }

    @Test
    void heldPressureStays() {
        Train train = charged(4);
        applyTo(train, 25);
        double before = train.cylinderPascals(3);
        run(train, 300);
        assertEquals(before, train.cylinderPascals(3), 1e-3);
    }

    @Test
    void theBrakePipeFeelsNothingOfIt() {
        Train train = charged(4);
        train.drive(0, CabValve.feeding(70 * PSI));
        applyTo(train, 50);
        release(train);
        run(train, 10);
        assertEquals(70 * PSI, train.brakePipePascals(3), 1);
    }

    @Test
    void applyingWithoutHoldingFillsAndExhaustsAtOnce() {
        Train train = charged(4);
        train.energise(TrainWire.APPLICATION, 0, UN, 0.5);
        run(train, 10);
        double standing = train.cylinderPascals(0) / PSI;
        assertTrue(standing > 10 && standing < 45, standing + " psi");
        double vented = train.massBalance().vented();
        run(train, 1);
        assertTrue(train.massBalance().vented() > vented + 0.01, "it blows");
    }

    /** A triple valve gives air, not a pressure: 8 psi of 38 l are 25 psi of 12 l, on top of what is there. */
    @Test
    void anAutomaticApplicationAddsToAnEpOneAndIsTakenBackAlone() {
        Train train = charged(4);
        applyTo(train, 25);
        double held = train.cylinderPascals(0);
        train.drive(0, CabValve.graduated(62 * PSI));
        run(train, 20);
        assertEquals(held + 8 * 38 / 12.0 * PSI, train.cylinderPascals(0), 0.8 * 38 / 12.0 * PSI, "but for the lap");
        train.drive(0, CabValve.feeding(70 * PSI));
        run(train, 40);
        assertEquals(TripleState.RELEASE, train.tripleState(0));
        assertEquals(held, train.cylinderPascals(0), 0.1 * PSI, "back to the EP application, which is still held");
        release(train);
        run(train, 10);
        assertTrue(train.cylinderPascals(0) < PSI);
    }

    @Test
    void releasingEpLeavesTheAutomaticApplication() {
        Train train = charged(4);
        train.drive(0, CabValve.graduated(60 * PSI));
        run(train, 20);
        double automatic = train.cylinderPascals(0);
        applyTo(train, 40);
        assertTrue(train.cylinderPascals(0) > 38 * PSI);
        release(train);
        run(train, 15);
        assertEquals(automatic, train.cylinderPascals(0), 0.1 * PSI);
        assertEquals(TripleState.LAP, train.tripleState(0));
    }

    @Test
    void holdingTrapsAnAutomaticApplicationWhereExhaustsAreInSeries() {
        Train train = inSeries();
        train.drive(0, FULL_SERVICE);
        run(train, 20);
        hold(train);
        run(train, 1);
        train.drive(0, CabValve.feeding(70 * PSI));
        run(train, 60);
        assertEquals(TripleState.RELEASE, train.tripleState(0));
        assertTrue(train.cylinderPascals(0) > 45 * PSI, "trapped");
        release(train);
        run(train, 30);
        assertTrue(train.cylinderPascals(0) < PSI);
    }

    @Test
    void holdingDoesNotTrapAnAutomaticApplicationWhereExhaustsAreSeparate() {
        Train train = charged(4);
        train.drive(0, FULL_SERVICE);
        run(train, 20);
        hold(train);
        run(train, 1);
        train.drive(0, CabValve.feeding(70 * PSI));
        run(train, 60);
        assertTrue(train.cylinderPascals(0) < PSI);
    }

    @Test
    void withoutALimitTheAutomaticBrakeAddsToAnEpApplicationAndWithOneItDoesNot() {
        assertTrue(emergencyOnFullEp(Double.POSITIVE_INFINITY) > 60);
        assertEquals(52, emergencyOnFullEp(52), 0.1);
    }

    private static double emergencyOnFullEp(double limitPsi) {
        VehicleSpec like = ReferenceTrain.vehicle(0);
        TripleValveSpec t = like.triple();
        TripleValveSpec limited = new TripleValveSpec(
                t.apply(),
                t.release(),
                t.groove(),
                t.applyPascals(),
                t.lapPascals(),
                t.reapplyPascals(),
                t.releasePascals(),
                limitPsi * PSI);
        VehicleSpec vehicle = new VehicleSpec(
                like.brakePipe(),
                like.mainPipe(),
                like.auxiliaryCubicMetres(),
                limited,
                like.cylinder(),
                like.ep(),
                like.vents(),
                like.leaks());
        Train train = new Train(ReferenceTrain.train(List.of(vehicle), 2));
        train.charge(70 * PSI, 90 * PSI);
        applyTo(train, 50);
        train.drive(0, CabValve.EMERGENCY);
        run(train, 20);
        return train.cylinderPascals(0) / PSI;
    }

    @Test
    void aWeakFarEndDoesNotPickUp() {
        Train train = charged(4);
        train.fault(new WireFault.Resistive(TrainWire.APPLICATION, 1, 500));
        apply(train);
        run(train, 4);
        assertTrue(train.volts(TrainWire.APPLICATION, 3) < 0.6 * UN);
        assertTrue(train.applicationOpen(1));
        assertFalse(train.applicationOpen(2));
        assertTrue(train.holdingClosed(3));
        assertTrue(train.cylinderPascals(3) < 1);
    }

    @Test
    void crossedWiresRunTheFirstLapToTheLimit() {
        Train train = charged(4);
        train.fault(new WireFault.Crossed(TrainWire.APPLICATION, TrainWire.HOLDING, 1));
        applyTo(train, 20);
        run(train, 10);
        assertEquals(20, train.cylinderPascals(1) / PSI, 3);
        assertTrue(train.cylinderPascals(2) > 21 * PSI, train.cylinderPascals(2) / PSI + " psi");
    }

    @Test
    void aNarrowedChokeFillsSlower() {
        Train train = charged(4);
        train.choke(Passage.EP_APPLY, 2, 0.5);
        apply(train);
        run(train, 1.5);
        assertTrue(train.cylinderPascals(2) < 0.7 * train.cylinderPascals(1));
    }

    @Test
    void aBurstMainPipeLeavesTheSupplyReservoirsOnlyWithTheirCheckValves() {
        Train kept = charged(4);
        Train lost = charged(4);
        IntStream.range(0, 4).forEach(k -> lost.checkValveMissing(k, true));
        for (Train train : List.of(kept, lost)) {
            train.compressor(false);
            train.burst(TrainPipe.MAIN, 1, true);
            train.cock(TrainPipe.MAIN, 0, true);
            run(train, 60);
            assertTrue(train.mainPipePascals(3) < PSI);
        }
        assertEquals(90 * PSI, kept.supplyPascals(3), 1);
        assertTrue(lost.supplyPascals(3) < 10 * PSI);
    }
}
