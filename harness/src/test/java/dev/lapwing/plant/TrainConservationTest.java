package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.AMBIENT;
import static dev.lapwing.plant.ReferenceTrain.PSI;
import static dev.lapwing.plant.ReferenceTrain.orifice;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TrainConservationTest {
    private static final long SEED = Long.getLong("lapwing.seed", 1);
    private static final int STEPS = 200_000;

    /** A train with an ordinary main reservoir, half of its vehicles with their exhausts in series. */
    private static Train train(int vehicles) {
        List<VehicleSpec> specs = new ArrayList<>();
        for (int k = 0; k < vehicles; k++) {
            specs.add(k % 2 == 0 ? ReferenceTrain.vehicle(k) : inSeries(ReferenceTrain.vehicle(k)));
        }
        TrainSpec like = ReferenceTrain.train(specs, 2);
        MainSupplySpec supply = new MainSupplySpec(1, 0.4, orifice(20), 0.02, 85 * PSI, 95 * PSI);
        Train train = new Train(new TrainSpec(
                specs, like.driverValve(), supply, like.wires(), 2, like.ambientPascals(), like.kelvin()));
        train.charge(70 * PSI, 90 * PSI);
        train.compressor(true);
        return train;
    }

    static VehicleSpec inSeries(VehicleSpec like) {
        ElectroPneumaticSpec ep = like.ep();
        ElectroPneumaticSpec with = new ElectroPneumaticSpec(
                ep.application(),
                ep.holding(),
                ep.apply(),
                ep.exhaust(),
                ep.limitPascals(),
                ep.limitBandPascals(),
                true,
                ep.supplyCubicMetres(),
                ep.supplyCheck());
        return ReferenceTrain.with(like, with);
    }

    /** Every pressure of a train, for comparing and searching. */
    private static double[] pressures(Train train) {
        int vehicles = train.spec().vehicles().size();
        double[] all = new double[5 * vehicles + 2];
        int i = 0;
        for (int k = 0; k < vehicles; k++) {
            all[i++] = train.brakePipePascals(k);
            all[i++] = train.auxiliaryPascals(k);
            all[i++] = train.cylinderPascals(k);
            all[i++] = train.supplyPascals(k);
            all[i++] = train.mainPipePascals(k);
        }
        all[i++] = train.mainReservoirPascals();
        all[i] = train.cabPipePascals(0);
        return all;
    }

    /**
     * Twenty minutes in steps of up to 5 ms in which everything opens and shuts. Air is accounted for to rounding:
     * 1e-12 of what has passed. No pressure goes below vacuum, nor any vessel but a pipe, in which air has inertia,
     * below atmosphere by more than rounding.
     */
    @ParameterizedTest(name = "{0} cars")
    @ValueSource(ints = {2, 4, 12})
    void noAirIsLostOrMadeWhateverHappens(int vehicles) {
        Train train = train(vehicles);
        Chaos chaos = new Chaos(train, SEED);
        double lowest = 0;
        for (int i = 0; i < STEPS; i++) {
            if (i % 100 == 0) {
                chaos.act();
            }
            train.step(i % 3 == 0 ? 0.001 : i % 3 == 1 ? 0.005 : 0.0023);
            if (i % 10 == 0) {
                for (double pascals : pressures(train)) {
                    lowest = Math.min(lowest, pascals);
                }
            }
        }
        MassBalance balance = train.massBalance();
        assertTrue(balance.vented() > 1 && balance.delivered() > 1, "something happened: " + balance);
        double passed = balance.initial() + balance.delivered();
        assertEquals(0, balance.missing(), passed * 1e-12, "replay with -Dlapwing.seed=" + SEED + ": " + balance);
        assertTrue(lowest > -0.3 * AMBIENT, "lowest gauge pressure " + lowest + " Pa");
    }

    @Test
    void equalTrainsDoEqualThingsToTheLastBit() {
        long[] hash = new long[2];
        for (int run = 0; run < 2; run++) {
            Train train = train(4);
            Chaos chaos = new Chaos(train, SEED);
            for (int i = 0; i < 50_000; i++) {
                if (i % 100 == 0) {
                    chaos.act();
                }
                train.step(0.001);
                if (i % 100 == 0) {
                    for (double pascals : pressures(train)) {
                        hash[run] = 31 * hash[run] + Double.doubleToLongBits(pascals);
                    }
                }
            }
        }
        assertEquals(hash[0], hash[1]);
        assertNotEquals(0, hash[0]);
    }

    @Test
    void aTrainAtRestStaysAtRest() {
        Train train = new Train(ReferenceTrain.spec(4));
        train.charge(70 * PSI, 90 * PSI);
        double[] before = pressures(train);
        Steps.run(train, 60);
        double[] after = pressures(train);
        for (int i = 0; i < before.length; i++) {
            assertEquals(before[i], after[i], 1e-6);
        }
        assertEquals(0, train.massBalance().vented());
    }
}
