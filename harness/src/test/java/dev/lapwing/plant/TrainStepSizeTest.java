package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.PSI;
import static dev.lapwing.plant.ReferenceTrain.charged;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What the time step costs in accuracy: every pressure of twelve cars compared every 10 ms with steps of 0.1 ms. Worst
 * difference in psi of the brake pipe and of reservoirs and cylinders, at steps of 1 ms (2 ms; 5 ms):
 *
 * <pre>
 *                  pipe                   reservoirs and cylinders
 * EP application   0      (0;     0)      0.007 (0.14; 0.55)
 * emergency        0.07   (0.14;  0.37)   0.10  (0.21; 0.51)
 * parting          0.18   (0.39;  0.99)   0.10  (0.22; 0.48)
 * alarm while fed  0.008  (0.016; 0.041)  0.74  (1.5;  1.7)
 * full service     0.005  (0.010; 0.024)  1.5   (1.6;  1.7)
 * </pre>
 *
 * <p>In an emergency 0.1 psi is 0.6 ms on a slope of 160 psi/s; a delay that is no whole number of steps ends up to a
 * step late. In the last two the pipe creeps and triple valves lap and re-apply by turns, at instants that the smallest
 * change moves. Between lap and re-apply lie 0.5 psi of the reservoir, which are 38/12 times as much, 1.6 psi, in the
 * cylinder: that is the valve's own spread, not the step's.
 */
class TrainStepSizeTest {
    private static final int CARS = 12;
    private static final double LAP_SPREAD = 0.5 * 38 / 12;

    record Manoeuvre(String name, Consumer<Train> begin, double seconds, double pipePsi, double vesselPsi) {
        @Override
        public String toString() {
            return name;
        }
    }

    static Stream<Manoeuvre> manoeuvres() {
        return Stream.of(
                new Manoeuvre("emergency", train -> train.drive(0, CabValve.EMERGENCY), 20, 0.08, 0.12),
                new Manoeuvre(
                        "full service", train -> train.drive(0, CabValve.graduated(50 * PSI)), 20, 0.01, LAP_SPREAD),
                new Manoeuvre("EP application", ReferenceTrain::apply, 4, 0.001, 0.01),
                new Manoeuvre("parting", train -> train.part(5), 10, 0.2, 0.12),
                new Manoeuvre("alarm while fed", TrainStepSizeTest::alarmWhileFed, 20, 0.01, LAP_SPREAD));
    }

    private static void alarmWhileFed(Train train) {
        train.drive(0, CabValve.feeding(70 * PSI));
        train.alarm(6, 1);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("manoeuvres")
    void aStepTenTimesSmallerChangesLittle(Manoeuvre manoeuvre) {
        double[] worst = worst(manoeuvre, 0.001);
        assertEquals(0, worst[0], manoeuvre.pipePsi(), "brake pipe, psi");
        assertEquals(0, worst[1], manoeuvre.vesselPsi(), "auxiliary reservoirs and cylinders, psi");
    }

    /** The largest differences in psi of pipe and of vessels between a step and one of 0.1 ms, at any time. */
    static double[] worst(Manoeuvre manoeuvre, double stepSeconds) {
        Train coarse = charged(CARS);
        Train fine = charged(CARS);
        manoeuvre.begin().accept(coarse);
        manoeuvre.begin().accept(fine);
        double[] worst = new double[2];
        for (int i = 0; i < Math.round(manoeuvre.seconds() * 100); i++) {
            Steps.run(coarse, 0.01, stepSeconds);
            Steps.run(fine, 0.01, 0.0001);
            for (int k = 0; k < CARS; k++) {
                worst[0] = Math.max(worst[0], Math.abs(coarse.brakePipePascals(k) - fine.brakePipePascals(k)) / PSI);
                double vessels = Math.max(
                        Math.abs(coarse.auxiliaryPascals(k) - fine.auxiliaryPascals(k)),
                        Math.abs(coarse.cylinderPascals(k) - fine.cylinderPascals(k)));
                worst[1] = Math.max(worst[1], vessels / PSI);
            }
        }
        return worst;
    }
}
