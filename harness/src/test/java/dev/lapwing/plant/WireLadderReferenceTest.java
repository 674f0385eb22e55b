package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.PSI;
import static dev.lapwing.plant.ReferenceTrain.UN;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Voltages of the train wires. Source: Kirchhoff's laws, worked by hand beside each check; coils 600 ohm, links 2 ohm,
 * return bond 1 ohm, source 110 V behind 1 ohm, unless said otherwise. Insulation is 1e12 ohm, so it moves no figure by
 * more than 1e-6 V, the tolerance.
 */
class WireLadderReferenceTest {
    private static final double TOLERANCE = 1e-6;
    private static final double COIL = 600;
    private static final double LINK = 2;
    private static final double SOURCE = 1;
    private static final double BOND = 1;

    private static Train train(int vehicles, double linkOhms, double returnLinkOhms, double coilOhms) {
        Map<TrainWire, WireSpec> wires = new EnumMap<>(TrainWire.class);
        for (TrainWire wire : TrainWire.values()) {
            wires.put(wire, new WireSpec(wire == TrainWire.RETURN ? returnLinkOhms : linkOhms, 0, 1e12));
        }
        MagnetValveSpec valve = new MagnetValveSpec(0.6 * UN, 0.15 * UN, 0.045, 0.060, coilOhms);
        List<VehicleSpec> specs = IntStream.range(0, vehicles)
                .mapToObj(k -> withValves(ReferenceTrain.vehicle(k), valve))
                .toList();
        TrainSpec like = ReferenceTrain.train(specs, 2);
        return new Train(new TrainSpec(
                specs,
                like.driverValve(),
                like.mainSupply(),
                new TrainWiresSpec(wires, List.of(), BOND),
                2,
                like.ambientPascals(),
                like.kelvin()));
    }

    private static VehicleSpec withValves(VehicleSpec like, MagnetValveSpec valve) {
        ElectroPneumaticSpec ep = like.ep();
        ElectroPneumaticSpec with = new ElectroPneumaticSpec(
                valve,
                valve,
                ep.apply(),
                ep.exhaust(),
                ep.limitPascals(),
                ep.limitBandPascals(),
                ep.exhaustsInSeries(),
                ep.supplyCubicMetres(),
                ep.supplyCheck());
        return ReferenceTrain.with(like, with);
    }

    private static Train train(int vehicles) {
        return train(vehicles, LINK, LINK, COIL);
    }

    /** With the holding wire open everywhere, so that its coils carry no current between different returns. */
    private static Train applicationAlone(int vehicles) {
        Train train = train(vehicles);
        for (int k = 0; k + 1 < vehicles; k++) {
            train.fault(new WireFault.Open(TrainWire.HOLDING, k));
        }
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        return train;
    }

    private static double parallel(double one, double other) {
        return one * other / (one + other);
    }

    /** Source: one loop, I = U/(R_source + R_coil + R_bond). */
    @Test
    void oneCoilIsOneLoop() {
        Train train = train(1);
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        double current = UN / (SOURCE + COIL + BOND);
        assertEquals(current * COIL, train.volts(TrainWire.APPLICATION, 0), TOLERANCE);
        assertEquals(current * BOND, train.volts(TrainWire.RETURN, 0), TOLERANCE);
        assertEquals(current, train.amps(TrainWire.APPLICATION, 0), TOLERANCE);
        assertEquals(0, train.volts(TrainWire.HOLDING, 0), TOLERANCE);
    }

    /** Source: two coils; that of the second vehicle stands behind two links, one there and one back. */
    @Test
    void theSecondCoilStandsBehindTwoLinks() {
        Train train = applicationAlone(2);
        double branch = LINK + COIL + LINK;
        double load = parallel(COIL, branch);
        double first = UN * load / (SOURCE + load + BOND);
        assertEquals(first, train.volts(TrainWire.APPLICATION, 0), TOLERANCE);
        assertEquals(first * COIL / branch, train.volts(TrainWire.APPLICATION, 1), TOLERANCE);
    }

    /**
     * Source: the ladder of equal resistors, whose voltages from the far end are every second Fibonacci number, a
     * textbook result: loads and links of 600 ohm, return without resistance. From the end v = 1, 2, 5, 13, 34, 89.
     */
    @Test
    void aLadderOfEqualResistorsGivesFibonacciNumbers() {
        Train train = train(6, COIL, 1e-6, COIL);
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        double end = train.volts(TrainWire.APPLICATION, 5);
        double[] fibonacci = {89, 34, 13, 5, 2, 1};
        for (int k = 0; k < 6; k++) {
            assertEquals(fibonacci[k], train.volts(TrainWire.APPLICATION, k) / end, 1e-6, "vehicle " + k);
        }
    }

    /** Source: beyond an open wire no current flows, so the coils there have no voltage; before it a shorter ladder. */
    @ParameterizedTest(name = "behind {0}")
    @ValueSource(ints = {0, 1, 2})
    void nothingReachesBeyondAnOpenWire(int behind) {
        Train train = applicationAlone(4);
        train.fault(new WireFault.Open(TrainWire.APPLICATION, behind));
        Train shorter = applicationAlone(behind + 1);
        for (int k = 0; k <= behind; k++) {
            assertEquals(
                    shorter.volts(TrainWire.APPLICATION, k), train.volts(TrainWire.APPLICATION, k), 1e-4, "car " + k);
        }
        for (int k = behind + 1; k < 4; k++) {
            assertEquals(0, train.volts(TrainWire.APPLICATION, k), 1e-4, "car " + k);
        }
    }

    /** Source: a series resistance adds to the branch of the second vehicle. */
    @ParameterizedTest(name = "{0} ohm")
    @ValueSource(doubles = {0, 2, 20, 200, 2000})
    void aBadPinDividesTheVoltage(double ohms) {
        Train train = applicationAlone(2);
        train.fault(new WireFault.Resistive(TrainWire.APPLICATION, 0, ohms));
        double branch = LINK + ohms + COIL + LINK;
        double load = parallel(COIL, branch);
        double first = UN * load / (SOURCE + load + BOND);
        assertEquals(first * COIL / branch, train.volts(TrainWire.APPLICATION, 1), TOLERANCE);
    }

    /** Source: the short to plus is a source of its own: with the cab's source off, one loop through coil and bond. */
    @Test
    void aShortToPlusEnergisesADeadWire() {
        Train train = train(1);
        train.fault(new WireFault.ShortedToPlus(TrainWire.HOLDING, 0, UN, 10));
        assertEquals(UN * COIL / (10 + COIL + BOND), train.volts(TrainWire.HOLDING, 0), TOLERANCE);
        train.mendWires();
        assertEquals(0, train.volts(TrainWire.HOLDING, 0), TOLERANCE);
    }

    /** Source: the short to minus of 0.5 ohm stands beside coil and bond in series, and both load the source. */
    @Test
    void aShortToMinusDragsTheWireDown() {
        Train train = train(1);
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        train.fault(new WireFault.ShortedToMinus(TrainWire.APPLICATION, 0, 0.5));
        double load = parallel(0.5, COIL + BOND);
        double wire = UN * load / (SOURCE + load);
        assertEquals(wire * COIL / (COIL + BOND), train.volts(TrainWire.APPLICATION, 0), TOLERANCE);
        assertEquals(UN / (SOURCE + load), train.amps(TrainWire.APPLICATION, 0), TOLERANCE);
    }

    /** Source: beyond crossed wires each coil has the other's voltage: the lone source feeds coils of both kinds. */
    @Test
    void crossedWiresChangePlacesBeyondTheCoupling() {
        Train train = train(3);
        train.energise(TrainWire.HOLDING, 0, UN, SOURCE);
        Train whole = train(3);
        whole.energise(TrainWire.HOLDING, 0, UN, SOURCE);
        train.fault(new WireFault.Crossed(TrainWire.APPLICATION, TrainWire.HOLDING, 0));
        assertEquals(whole.volts(TrainWire.HOLDING, 0), train.volts(TrainWire.HOLDING, 0), TOLERANCE);
        for (int k = 1; k < 3; k++) {
            assertEquals(whole.volts(TrainWire.HOLDING, k), train.volts(TrainWire.APPLICATION, k), TOLERANCE);
            assertEquals(whole.volts(TrainWire.APPLICATION, k), train.volts(TrainWire.HOLDING, k), TOLERANCE);
        }
    }

    /**
     * Source: two vehicles with the return open between them and only the application wire energised. The far
     * application coil is in series with the far holding coil and, over the dead holding wire, the near holding coil:
     * three coils and two links from the near application wire to the near return. A third of the voltage is a sneak
     * path, though too little to pick up.
     */
    @Test
    void anOpenReturnMakesASneakPathThroughTheOtherWire() {
        Train train = train(2);
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        train.fault(new WireFault.Open(TrainWire.RETURN, 0));
        double sneak = LINK + COIL + COIL + LINK + COIL;
        double load = parallel(COIL, sneak);
        double first = UN * load / (SOURCE + load + BOND);
        assertEquals(first, train.volts(TrainWire.APPLICATION, 0), TOLERANCE);
        assertEquals(first * COIL / sneak, train.volts(TrainWire.APPLICATION, 1), TOLERANCE);
        assertEquals(-first * COIL / sneak, train.volts(TrainWire.HOLDING, 1), TOLERANCE);
    }

    /** Source: with both wires at the same voltage and the return open no current can flow beyond. */
    @Test
    void anOpenReturnLeavesTheFarCoilsDeadWhenBothWiresAreOn() {
        Train train = train(2);
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        train.energise(TrainWire.HOLDING, 0, UN, SOURCE);
        train.fault(new WireFault.Open(TrainWire.RETURN, 0));
        assertEquals(0, train.volts(TrainWire.APPLICATION, 1), 1e-4);
        assertEquals(0, train.volts(TrainWire.HOLDING, 1), 1e-4);
    }

    /** Source: superposition of two equal sources, one at each end: by symmetry both coils see the same. */
    @Test
    void twoCabsFeedOneWire() {
        Train train = train(2);
        train.energise(TrainWire.RETURN, 1, 0, BOND);
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        train.energise(TrainWire.APPLICATION, 1, UN, SOURCE);
        double each = UN * COIL / (SOURCE + COIL + BOND);
        assertEquals(each, train.volts(TrainWire.APPLICATION, 0), TOLERANCE);
        assertEquals(each, train.volts(TrainWire.APPLICATION, 1), TOLERANCE);
    }

    /** Source: a bridge of 100 ohm feeds the dead wire's coil in series: three loops around one bond. */
    @Test
    void aBridgeFeedsTheNeighbour() {
        Train train = train(1);
        train.energise(TrainWire.APPLICATION, 0, UN, SOURCE);
        train.fault(new WireFault.Bridged(TrainWire.APPLICATION, TrainWire.HOLDING, 0, 100));
        double load = parallel(COIL, 100 + COIL);
        double first = UN * load / (SOURCE + load + BOND);
        assertEquals(first * COIL / (100 + COIL), train.volts(TrainWire.HOLDING, 0), TOLERANCE);
    }

    /** A parted train has no wire beyond: what Kirchhoff says of an open wire, for all of them, and valves drop out. */
    @Test
    void partingDropsTheValvesBeyond() {
        Train train = ReferenceTrain.charged(4);
        ReferenceTrain.apply(train);
        Steps.run(train, 4);
        train.part(1);
        Steps.run(train, 0.08);
        assertEquals(UN, train.volts(TrainWire.HOLDING, 1), 0.01 * UN);
        assertEquals(0, train.volts(TrainWire.HOLDING, 2), 1e-3);
        assertTrue(train.holdingClosed(1));
        assertFalse(train.holdingClosed(2));
        Steps.run(train, 1);
        assertTrue(train.cylinderPascals(1) > 50 * PSI);
    }
}
