package dev.lapwing.plant;

import static dev.lapwing.plant.TripleState.APPLY;
import static dev.lapwing.plant.TripleState.LAP;
import static dev.lapwing.plant.TripleState.RELEASE;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TripleValvesTest {
    private static final double PSI = ReferenceTrain.PSI;

    private final TripleValves valves =
            new TripleValves(List.of(ReferenceTrain.vehicle(0).triple()));

    private void bring(TripleState state) {
        valves.releaseAll();
        if (state != RELEASE) {
            valves.move(0, 2 * PSI);
        }
        if (state == LAP) {
            valves.move(0, 0);
        }
        assertEquals(state, valves.state[0]);
    }

    /** The whole table of the law: auxiliary minus brake pipe just either side of every threshold. */
    @ParameterizedTest(name = "{0} at {1} psi goes to {2}")
    @CsvSource({
        "RELEASE, 1.49, RELEASE",
        "RELEASE, 1.51, APPLY",
        "RELEASE, -9, RELEASE",
        "APPLY, 0.31, APPLY",
        "APPLY, 0.29, LAP",
        "APPLY, -1.49, LAP",
        "APPLY, -1.51, RELEASE",
        "LAP, 0.79, LAP",
        "LAP, 0.81, APPLY",
        "LAP, -1.49, LAP",
        "LAP, -1.51, RELEASE"
    })
    void movesByTheLaw(TripleState from, double differencePsi, TripleState to) {
        bring(from);
        assertEquals(to, valves.move(0, differencePsi * PSI));
    }

    @Test
    void anInertOneStaysInRelease() {
        bring(APPLY);
        valves.inert(0, true);
        assertEquals(RELEASE, valves.move(0, 50 * PSI));
        valves.inert(0, false);
        assertEquals(APPLY, valves.move(0, 50 * PSI));
    }

    @Test
    void thresholdsOutOfOrderAreRefused() {
        Orifice any = ReferenceTrain.orifice(1);
        assertThrows(
                IllegalArgumentException.class,
                () -> new TripleValveSpec(any, any, any, 1500, 900, 800, 1500, Double.POSITIVE_INFINITY));
    }
}
