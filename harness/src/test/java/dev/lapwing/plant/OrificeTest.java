package dev.lapwing.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class OrificeTest {
    private static final double KELVIN = 288;

    @Test
    void theFlatFormHasTheSameLaw() {
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < 10_000; i++) {
            Orifice orifice = new Orifice(random.nextDouble(1e-9, 1e-6), random.nextDouble(0, 0.9));
            double high = random.nextDouble(1e5, 1e6);
            double low = high * random.nextDouble(0, 1);
            Ports ports = new Ports(1, KELVIN);
            ports.set(0, orifice, 1);
            double expected = orifice.massFlow(high, low, KELVIN);
            assertEquals(expected, ports.flow(0, high, low), Math.abs(expected) * 1e-12);
        }
    }

    @Test
    void flowRisesSteadilyFromEqualPressuresToChoking() {
        Orifice orifice = new Orifice(1e-8, 0.3);
        double before = 0;
        for (int i = 1; i <= 100_000; i++) {
            double now = orifice.massFlow(5e5, 5e5 * (1 - i * 1e-5), KELVIN);
            assertTrue(now >= before, "falls at ratio " + (1 - i * 1e-5));
            before = now;
        }
        assertEquals(orifice.massFlow(5e5, 0, KELVIN), before);
    }

    @Test
    void oneStepNeverPassesEquality() {
        Ports ports = new Ports(1, KELVIN);
        ports.set(0, new Orifice(1e-3, 0.3), 1);
        double slope = 1e7;
        double difference = 4e5;
        double mass = ports.pass(0, 1, 5e5, 1e5, slope, 0.005);
        assertTrue(mass > 0 && mass * slope < difference, mass * slope + " Pa of " + difference + " Pa");
        assertEquals(0, ports.pass(0, 1, 1e5, 1e5, slope, 0.005));
    }

    @Test
    void twoEqualRestrictionsInSeriesPassLessByRootTwo() {
        Orifice one = new Orifice(2e-8, 0.3);
        assertEquals(2e-8 / Math.sqrt(2), one.inSeriesWith(one).conductance(), 1e-22);
        assertEquals(0, one.inSeriesWith(new Orifice(0, 0.3)).conductance());
    }

    @Test
    void nonsenseIsRefusedWithValueAndUnit() {
        String negative = assertThrows(IllegalArgumentException.class, () -> new Orifice(-1, 0.3))
                .getMessage();
        assertTrue(negative.contains("-1.0") && negative.contains("m³/(s·Pa)"), negative);
        assertThrows(IllegalArgumentException.class, () -> new Orifice(1e-8, 1));
        assertThrows(IllegalArgumentException.class, () -> new Orifice(Double.NaN, 0.3));
    }
}
