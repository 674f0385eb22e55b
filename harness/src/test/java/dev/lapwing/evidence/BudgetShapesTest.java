package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.JsonNode;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Along;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.MonteCarlo;
import dev.lapwing.uncertainty.Propagation;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class BudgetShapesTest {
    private static final Input LEVEL = Input.stated(0.1, Dimension.PRESSURE);

    /** What is crossed near its top has no time in some draws; the record still holds no infinity. */
    @Test
    void aDrawnDistributionIsKeptWithItsSeedTrialsAndInterval() throws UnreadableRecord {
        Propagation drawn = new MonteCarlo(
                        Map.of("calibration/P1", LEVEL),
                        z -> z[0] > 2.5 ? Double.POSITIVE_INFINITY : 3 - Math.sqrt(2.5 - z[0]),
                        4711)
                .propagate();
        Estimate estimate = new Estimate(
                3 - Math.sqrt(2.5),
                Dimension.TIME,
                List.of(Component.of("calibration/P1", 0.7, LEVEL)),
                Optional.of(drawn));

        byte[] file = RecordJson.file(RecordJson.tree(estimate));
        JsonNode read = RecordJson.parse("findings.json", file);
        JsonNode kept = read.get("propagated");
        assertThat(kept.get("seed").asLong()).isEqualTo(4711);
        assertThat(kept.get("trials").asLong()).isEqualTo(drawn.trials());
        assertThat(kept.get("lower").asDouble()).isEqualTo(drawn.lower());
        assertThat(kept.get("upper").asDouble()).isEqualTo(drawn.upper());
        assertThat(kept.get("never").asDouble()).isBetween(0.004, 0.009);
        assertThat(RecordJson.read("findings.json", file, new TypeReference<Estimate>() {}))
                .isEqualTo(estimate);
    }

    /** Before bench files could speak of a span, differences were told without; now with the most it may be. */
    @Test
    void aCalibrationOfAnOlderRecordSaysNothingOfItsSpan() throws UnreadableRecord {
        String old = "{\"points\": [{\"counts\": 0, \"value\": 0}, {\"counts\": 100, \"value\": 1000}],"
                + " \"standard\": 3, \"drift\": 4, \"noise\": 1, \"date\": \"2026-03-31\", \"due\": \"\","
                + " \"certificate\": \"HLR-CAL-0901\"}";
        Calibration read =
                RecordJson.read("plan.json", old.getBytes(StandardCharsets.UTF_8), new TypeReference<Calibration>() {});
        assertThat(read.span()).isEmpty();
        assertThat(read.along()).isEqualTo(new Along(0, 1000, Math.PI / 2));
        String link =
                "{\"kind\": \"simulated\", \"step-seconds\": 0.001, \"command-delay-us\": 0, \"transducer-error\": 0.1,"
                        + " \"transducer-noise\": 0, \"clock-error\": 0}";
        assertThat(RecordJson.read(
                        "plan.json",
                        link.getBytes(StandardCharsets.UTF_8),
                        new TypeReference<LinkChoice.Simulated>() {}))
                .isEqualTo(new LinkChoice.Simulated(0.001, 0, 0.1, 0, 0));
    }

    @Test
    void anEstimateOfAnOlderRecordHasNoDistribution() throws UnreadableRecord {
        String old = "{\"components\": [], \"dimension\": \"time\", \"value\": 2.5}";
        Estimate read = RecordJson.read(
                "findings.json", old.getBytes(StandardCharsets.UTF_8), new TypeReference<Estimate>() {});
        assertThat(read).isEqualTo(new Estimate(2.5, Dimension.TIME, List.of()));
    }
}
