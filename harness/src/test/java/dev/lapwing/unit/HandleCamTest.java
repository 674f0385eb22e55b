package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.fixture.Handle;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class HandleCamTest {
    private static final double DETENT = 2;
    private static final double LITTLE = 1e-9;

    private final HandleCam cam = new HandleCam(TestUnits.HANDLE, DETENT);

    @Test
    void everyZoneBeginsAndEndsWhereItsContactsDo() {
        Map<HandleZone, double[]> ends = Map.of(
                HandleZone.RELEASE, new double[] {-5, 2},
                HandleZone.EP_APPLICATION, new double[] {2 + LITTLE, 42},
                HandleZone.LAP, new double[] {42 + LITTLE, 57},
                HandleZone.SERVICE, new double[] {57 + LITTLE, 103 - LITTLE},
                HandleZone.EMERGENCY, new double[] {103, 110});
        ends.forEach((zone, degrees) -> {
            assertThat(cam.zone(degrees[0])).isEqualTo(zone);
            assertThat(cam.zone(degrees[1])).isEqualTo(zone);
        });
    }

    @Test
    void zonesNeverGoBackAsTheHandleGoesOn() {
        HandleZone before = HandleZone.RELEASE;
        for (double degrees = -5; degrees <= 110; degrees += 0.01) {
            HandleZone now = cam.zone(degrees);
            assertThat(now.atLeast(before)).isTrue();
            before = now;
        }
    }

    @Test
    void sharesRunFromEndToEndOfTheirArc() {
        assertThat(cam.epShare(-1)).isZero();
        assertThat(cam.epShare(20)).isCloseTo(0.5, within(LITTLE));
        assertThat(cam.epShare(45)).isEqualTo(1);
        assertThat(cam.serviceShare(55)).isZero();
        assertThat(cam.serviceShare(70)).isCloseTo(0.5, within(LITTLE));
        assertThat(cam.serviceShare(105)).isEqualTo(1);
    }

    @Test
    void fullServiceAndBeyondIsBraking() {
        assertThat(cam.braking(83 - LITTLE)).isFalse();
        assertThat(cam.braking(83)).isTrue();
        assertThat(cam.braking(TestUnits.EMERGENCY)).isTrue();
    }

    @Test
    void aHandleThatLacksAPositionOrAnArcIsRefusedByName() {
        for (String name : TestUnits.HANDLE.positions().keySet()) {
            Map<String, Double> fewer = new HashMap<>(TestUnits.HANDLE.positions());
            fewer.remove(name);
            assertThatThrownBy(() -> new HandleCam(new Handle(fewer, Map.of()), DETENT))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining(name);
        }
        for (String arc : TestUnits.HANDLE.arcs().keySet()) {
            Map<String, Handle.Arc> fewer = new HashMap<>(TestUnits.HANDLE.arcs());
            fewer.remove(arc);
            Handle handle = new Handle(TestUnits.HANDLE.positions(), fewer);
            assertThatThrownBy(() -> new HandleCam(handle, DETENT))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining(arc);
        }
    }

    @Test
    void positionsTooCloseForTheirDetentsAreRefused() {
        assertThatThrownBy(() -> new HandleCam(TestUnits.HANDLE, 7.5))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("15.0 degrees apart");
    }
}
