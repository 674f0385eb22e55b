package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.transport.linked.BenchFault.DeadTransducer;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

/** A transducer that dies at its moment reads one count for good; the others live on. */
class DeadInputsTest {
    private static final long DEATH_NANOS = 1_000_000;
    /** The clock of these terminals gains a tenth. */
    private static final long DEATH_US = 1_100;

    private final LiveFake fake = new LiveFake();

    private DeadInputs dying(OptionalInt counts) {
        return new DeadInputs(
                fake,
                List.of(
                        new TimedFault(new DeadTransducer("P1", counts), DEATH_NANOS),
                        new TimedFault(new BenchFault.Reset(), 0)));
    }

    @Test
    void itLivesUntilItsMoment() {
        DeadInputs inputs = dying(OptionalInt.of(77));
        assertThat(inputs.read("P1", DEATH_US - 2)).isEqualTo(1000);
        assertThat(inputs.read("P1", DEATH_US)).isEqualTo(77);
        assertThat(inputs.read("P2", DEATH_US)).isEqualTo(2000);
    }

    @Test
    void withoutACountItKeepsTheLastThatItHad() {
        DeadInputs inputs = dying(OptionalInt.empty());
        assertThat(inputs.read("P1", DEATH_US)).isEqualTo(1000);
        fake.points.put("P1", 3000);
        fake.points.put("P2", 4000);
        assertThat(inputs.read("P1", DEATH_US + 1_000_000)).isEqualTo(1000);
        assertThat(inputs.read("P2", DEATH_US + 1_000_000)).isEqualTo(4000);
    }

    @Test
    void outputsAreDrivenAsEver() {
        DeadInputs inputs = dying(OptionalInt.of(77));
        assertThat(inputs.drive(Map.of("H1", 5), DEATH_US + 9)).isEqualTo(DEATH_US + 9);
        assertThat(fake.points.get("H1")).isEqualTo(5);
    }
}
