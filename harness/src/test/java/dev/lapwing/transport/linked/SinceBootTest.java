package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** A bench that started anew counts from 0; its surroundings do not notice. */
class SinceBootTest {
    private static final long BOOT_US = 2_000_000;

    private final LiveFake fake = new LiveFake();
    private final SinceBoot since = new SinceBoot(fake, BOOT_US);

    @Test
    void itsClockShowsNothingAtTheNewStartAndRunsAtTheSameRate() {
        long bootNanos = fake.nanos(BOOT_US);
        assertThat(since.us(bootNanos)).isBetween(-1L, 0L);
        assertThat(since.us(bootNanos + 1_000_000_000)).isBetween(1_099_999L, 1_100_000L);
        assertThat(since.nanos(1_100_000)).isEqualTo(fake.nanos(BOOT_US + 1_100_000));
    }

    @Test
    void theSurroundingsGoOnInTheirOwnTime() {
        since.passUntil(5_000, (point, level, atUs) -> {});
        assertThat(fake.passedUs).isEqualTo(BOOT_US + 5_000);
        since.read("P1", 6_000);
        assertThat(fake.readUs).isEqualTo(BOOT_US + 6_000);
    }

    @Test
    void whatIsDrivenIsStampedInTheNewTime() {
        assertThat(since.drive(Map.of("W1", 1), 7_000)).isEqualTo(7_000);
        assertThat(fake.points.takeDrives().get(0).atUs()).isEqualTo(BOOT_US + 7_000);
    }

    @Test
    void anEdgeFromBeforeTheStartIsToldAtItsBeginning() {
        List<Long> stamps = new ArrayList<>();
        fake.edgeUs = BOOT_US - 100;
        since.passUntil(10, (point, level, atUs) -> stamps.add(atUs));
        fake.edgeUs = BOOT_US + 300;
        since.passUntil(400, (point, level, atUs) -> stamps.add(atUs));
        assertThat(stamps).containsExactly(0L, 300L);
    }
}
