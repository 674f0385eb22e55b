package dev.lapwing.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class MagnetValvesTest {
    private static final double STEP = 0.001;

    private final MagnetValves valves = new MagnetValves(List.of(new MagnetValveSpec(66, 16, 0.045, 0.060, 600)));

    private int stepsUntil(boolean energised) {
        int steps = 0;
        while (valves.energised[0] != energised && steps < 1000) {
            valves.step(STEP);
            steps++;
        }
        return steps;
    }

    private void steps(int count) {
        for (int i = 0; i < count; i++) {
            valves.step(STEP);
        }
    }

    @Test
    void movesWhenItsDelayHasRunOut() {
        valves.coil(0, 110);
        steps(45);
        assertFalse(valves.energised[0]);
        // The step that begins 45 ms after the edge is the first that flows through the moved valve.
        valves.step(STEP);
        assertTrue(valves.energised[0]);
        valves.coil(0, 0);
        assertEquals(61, stepsUntil(false));
    }

    @Test
    void aPulseShorterThanTheDelayMovesNothing() {
        for (int i = 0; i < 20; i++) {
            valves.coil(0, 110);
            steps(40);
            valves.coil(0, 0);
            steps(10);
            assertFalse(valves.energised[0]);
        }
    }

    @Test
    void aGapShorterThanTheDelayMovesNothing() {
        valves.coil(0, 110);
        steps(50);
        for (int i = 0; i < 20; i++) {
            valves.coil(0, 0);
            steps(55);
            valves.coil(0, 110);
            steps(1);
            assertTrue(valves.energised[0]);
        }
    }

    @Test
    void betweenDropOutAndPickUpItStaysWhereItIs() {
        valves.coil(0, 65);
        steps(200);
        assertFalse(valves.energised[0]);
        valves.coil(0, 66);
        steps(50);
        valves.coil(0, 17);
        steps(200);
        assertTrue(valves.energised[0]);
        valves.coil(0, 15);
        steps(61);
        assertFalse(valves.energised[0]);
    }

    @Test
    void polarityDoesNotMatter() {
        valves.coil(0, -110);
        assertEquals(46, stepsUntil(true));
    }
}
