package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.PSI;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class CylindersTest {
    private static final double GAS = Air.GAS_CONSTANT * 293.15;
    private static final double AMBIENT = 101_325;

    private static double volume(double gauge) {
        double travel = Math.max(0, Math.min(1, (gauge / PSI - 3) / 5));
        return 0.002 + 0.010 * travel;
    }

    @Test
    void pressureTimesVolumeIsMassTimesGas() {
        Cylinders cylinders = new Cylinders(List.of(new CylinderSpec(0.002, 0.010, 3 * PSI, 8 * PSI)), GAS, AMBIENT);
        cylinders.empty(AMBIENT);
        double before = AMBIENT;
        for (int i = 0; i < 6500; i++) {
            cylinders.mass[0] += 1e-5;
            cylinders.settle(0);
            double now = cylinders.pascals[0];
            assertTrue(now > before);
            assertEquals(cylinders.mass[0] * GAS, now * volume(now - AMBIENT), 1e-9 * cylinders.mass[0] * GAS);
            before = now;
        }
        assertTrue(before - AMBIENT > 50 * PSI);
    }

    @Test
    void theSlopeIsThatOfTheCurve() {
        Cylinders cylinders = new Cylinders(List.of(new CylinderSpec(0.002, 0.010, 3 * PSI, 8 * PSI)), GAS, AMBIENT);
        for (double mass : new double[] {0.0026, 0.006, 0.02}) {
            cylinders.mass[0] = mass - 1e-8;
            cylinders.settle(0);
            double below = cylinders.pascals[0];
            cylinders.mass[0] = mass + 1e-8;
            cylinders.settle(0);
            assertEquals((cylinders.pascals[0] - below) / 2e-8, cylinders.slope[0], cylinders.slope[0] * 1e-4);
        }
    }

    @Test
    void withoutStrokeItIsARigidVessel() {
        Cylinders cylinders = new Cylinders(List.of(new CylinderSpec(0.010, 0, 1, 2)), GAS, AMBIENT);
        for (double mass : new double[] {0.001, 0.0121, 0.05}) {
            cylinders.mass[0] = mass;
            cylinders.settle(0);
            assertEquals(mass * GAS / 0.010, cylinders.pascals[0], 1e-6);
        }
    }
}
