package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.PSI;
import static dev.lapwing.plant.ReferenceTrain.charged;
import static dev.lapwing.plant.ReferenceTrain.orifice;
import static dev.lapwing.plant.Steps.run;
import static dev.lapwing.plant.Steps.until;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TrainEventsTest {
    private static final CabValve RUNNING = CabValve.feeding(70 * PSI);

    @Test
    void anyRiseReleasesTheAutomaticBrakeWhole() {
        Train train = charged(4);
        train.drive(0, CabValve.graduated(50 * PSI));
        run(train, 20);
        train.drive(0, CabValve.feeding(53 * PSI));
        run(train, 10);
        train.drive(0, CabValve.LAP);
        run(train, 30);
        for (int k = 0; k < 4; k++) {
            assertTrue(train.cylinderPascals(k) < PSI, "car " + k);
        }
    }

    @Test
    void aSecondReductionAppliesMore() {
        Train train = charged(4);
        train.drive(0, CabValve.graduated(60 * PSI));
        run(train, 20);
        double first = train.cylinderPascals(2);
        train.drive(0, CabValve.graduated(55 * PSI));
        run(train, 20);
        assertTrue(train.cylinderPascals(2) > first + 10 * PSI);
    }

    @Test
    void aDumpWithTheFeedNotCutNeverEmptiesThePipe() {
        Train cut = charged(4);
        cut.drive(0, CabValve.DUMP);
        Train fed = charged(4);
        fed.drive(0, RUNNING.withDumpShare(1));
        run(cut, 30);
        run(fed, 30);
        assertTrue(cut.brakePipePascals(3) < 3 * PSI);
        assertTrue(fed.brakePipePascals(3) > 12 * PSI && fed.brakePipePascals(3) < 20 * PSI);
        assertEquals(cut.cylinderPascals(3), fed.cylinderPascals(3), 0.5 * PSI, "the cylinder does not show it");
    }

    @Test
    void aShutCockHidesTheRestOfTheTrain() {
        Train train = charged(4);
        train.cock(TrainPipe.BRAKE, 1, true);
        train.drive(0, CabValve.EMERGENCY);
        run(train, 20);
        assertTrue(train.cylinderPascals(1) > 45 * PSI);
        assertTrue(train.cylinderPascals(2) < 1);
        assertEquals(70 * PSI, train.brakePipePascals(3), 1);
        train.cock(TrainPipe.BRAKE, 1, false);
        run(train, 20);
        assertTrue(train.cylinderPascals(3) > 45 * PSI);
    }

    @Test
    void aShutCockKeepsThePipeFromABurstHoseBehindIt() {
        Train train = charged(4);
        train.cock(TrainPipe.BRAKE, 1, true);
        train.burst(TrainPipe.BRAKE, 1, true);
        run(train, 20);
        assertEquals(70 * PSI, train.brakePipePascals(1), 1);
        assertTrue(train.cylinderPascals(2) > 45 * PSI);
    }

    @Test
    void aBurstHoseAppliesEveryVehicleAndHealsWhenMended() {
        Train train = charged(4);
        train.burst(TrainPipe.BRAKE, 3, true);
        run(train, 20);
        assertTrue(IntStream.range(0, 4).allMatch(k -> train.cylinderPascals(k) > 45 * PSI));
        train.burst(TrainPipe.BRAKE, 3, false);
        train.drive(0, RUNNING);
        run(train, 120);
        assertTrue(IntStream.range(0, 4).allMatch(k -> train.cylinderPascals(k) < PSI));
    }

    /** Air that rushes out has inertia and leaves the pipe a little below atmosphere, which an open hose then fills. */
    @Test
    void anEmptiedPipeComesToAtmosphere() {
        Train train = charged(4);
        train.burst(TrainPipe.BRAKE, 3, true);
        run(train, 30);
        IntStream.range(0, 4).forEach(k -> assertEquals(0, train.brakePipePascals(k), 20, "car " + k));
        assertEquals(0, train.massBalance().missing(), 1e-9);
    }

    @Test
    void partsOfAPartedTrainAreJoinedAgain() {
        Train train = charged(4);
        train.part(0);
        run(train, 10);
        assertTrue(train.brakePipePascals(3) < PSI);
        train.couple(0);
        train.drive(0, RUNNING);
        run(train, 120);
        assertTrue(train.brakePipePascals(3) > 65 * PSI);
    }

    @Test
    void anInertTripleValveNeverApplies() {
        Train train = charged(4);
        train.inertTriple(2, true);
        train.drive(0, CabValve.EMERGENCY);
        run(train, 20);
        assertTrue(train.cylinderPascals(1) > 45 * PSI);
        assertTrue(train.cylinderPascals(2) < 1);
    }

    @Test
    void aBlockedAlarmValveCannotOvercomeTheFeed() {
        Train train = charged(4);
        train.drive(0, RUNNING);
        train.choke(Passage.ALARM, 2, 0.1);
        train.alarm(2, 1);
        run(train, 60);
        assertTrue(train.brakePipePascals(2) > 65 * PSI);
        train.choke(Passage.ALARM, 2, 1);
        assertTrue(until(train, 10, () -> train.cylinderPascals(2) > 45 * PSI) < 10, "opens wide when unblocked");
    }

    /** The independent model has 0.43 psi/min for 0.004 dm³/(s·bar) a car, shared by pipe and auxiliary reservoir. */
    @Test
    void aCatalogueLeakLosesItsFigure() {
        Train train = charged(4);
        IntStream.range(0, 4).forEach(k -> train.leak(Volume.BRAKE_PIPE, k, 0.004 * 1e-8));
        run(train, 60);
        double before = train.brakePipePascals(3);
        run(train, 60);
        assertEquals(0.43, (before - train.brakePipePascals(3)) / PSI, 0.03);
        IntStream.range(0, 4).forEach(k -> train.leak(Volume.BRAKE_PIPE, k, 0));
        double vented = train.massBalance().vented();
        run(train, 1);
        assertEquals(vented, train.massBalance().vented());
    }

    @Test
    void everyVolumeMayLeak() {
        Train train = charged(4);
        ReferenceTrain.apply(train);
        run(train, 4);
        ReferenceTrain.hold(train);
        run(train, 1);
        train.leak(Volume.CYLINDER, 1, 1e-10);
        train.leak(Volume.AUXILIARY, 1, 1e-10);
        train.leak(Volume.MAIN_PIPE, 1, 1e-10);
        double cylinder = train.cylinderPascals(1);
        double auxiliary = train.auxiliaryPascals(1);
        run(train, 30);
        assertTrue(train.cylinderPascals(1) < cylinder - PSI);
        assertTrue(train.auxiliaryPascals(1) < auxiliary);
        assertEquals(
                train.massBalance().initial() - train.massBalance().vented(),
                train.massBalance().stored(),
                1e-9);
    }

    @Test
    void aSecondCabThatFeedsRefillsTheRear() {
        Train train = charged(12);
        train.drive(11, RUNNING.withFeedShare(0.1 / 3));
        train.crewValve(11, 1);
        until(train, 20, () -> train.brakePipePascals(11) < 33 * PSI);
        train.crewValve(11, 0);
        run(train, 5);
        double settled = train.brakePipePascals(11);
        run(train, 55);
        assertTrue(train.brakePipePascals(11) > settled + 2 * PSI);
    }

    @Test
    void theGovernorKeepsTheMainReservoirBetweenItsLimits() {
        TrainSpec like = ReferenceTrain.spec(4);
        MainSupplySpec supply = new MainSupplySpec(1, 0.2, orifice(20), 0.02, 85 * PSI, 95 * PSI);
        Train train = new Train(new TrainSpec(
                like.vehicles(), like.driverValve(), supply, like.wires(), 2, like.ambientPascals(), like.kelvin()));
        train.charge(70 * PSI, 84 * PSI);
        run(train, 1);
        assertFalse(train.compressorRunning(), "kept off");
        train.compressor(true);
        run(train, 1);
        assertTrue(train.compressorRunning());
        double seconds = until(train, 300, () -> !train.compressorRunning());
        assertTrue(seconds < 300);
        assertEquals(95 * PSI, train.mainReservoirPascals(), 0.1 * PSI);
        train.leak(Volume.MAIN_PIPE, 3, 1e-8);
        assertTrue(until(train, 300, train::compressorRunning) < 300);
        assertEquals(85 * PSI, train.mainReservoirPascals(), 0.1 * PSI);
    }

    @Test
    void whatIsOutsideTheTrainIsRefused() {
        Train train = charged(4);
        assertThrows(IllegalArgumentException.class, () -> train.drive(4, CabValve.LAP));
        assertThrows(IllegalArgumentException.class, () -> train.part(3));
        assertThrows(IllegalArgumentException.class, () -> train.cylinderPascals(-1));
        assertThrows(IllegalArgumentException.class, () -> train.alarm(0, 1.5));
        assertThrows(IllegalArgumentException.class, () -> train.step(0));
        assertThrows(IllegalArgumentException.class, () -> train.step(0.006));
        assertThrows(IllegalArgumentException.class, () -> train.energise(TrainWire.HOLDING, 0, Double.NaN, 1));
        assertThrows(IllegalArgumentException.class, () -> train.fault(new WireFault.Open(TrainWire.HOLDING, 3)));
        assertThrows(IllegalArgumentException.class, () -> CabValve.LAP.withFeedShare(2));
    }

    @Test
    void oneVehicleIsATrain() {
        Train train = charged(1);
        train.drive(0, CabValve.EMERGENCY);
        run(train, 0.1);
        assertTrue(train.exhaustedKilograms(0) > 0);
        run(train, 10);
        assertTrue(train.cylinderPascals(0) > 45 * PSI);
    }
}
