package dev.lapwing.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.bench.Register.Table;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/** How long a Modbus line takes, held against the serial-line specification and frames counted by hand. */
class LineTimingReferenceTest {
    /**
     * Source: Modbus over Serial Line V1.02, section 2.5.1.1: 3.5 characters of silence between frames, at more than
     * 19200 Bd a fixed 1.750 ms; a character has 11 bits (section 2.5.1). From memory; 3.5 · 11 / 9600 Bd = 4.0104 ms.
     */
    @Test
    void silenceBetweenFramesIsThatOfTheSpecification() {
        assertThat(new LineTiming(9_600).silenceUs()).isCloseTo(4_010.4, within(0.1));
        assertThat(new LineTiming(19_200).silenceUs()).isCloseTo(2_005.2, within(0.1));
        assertThat(new LineTiming(19_201).silenceUs()).isEqualTo(1_750);
        assertThat(new LineTiming(115_200).silenceUs()).isEqualTo(1_750);
    }

    /**
     * Source: Modbus Application Protocol V1.1b3, the example frames of sections 6.2, 6.4, 6.5 and 6.12 with module and
     * CRC: 8 and 8, 8 and 7, 8 and 8, 13 and 8 bytes for request and answer.
     */
    @Test
    void framesAreAsLongAsTheSpecificationsExamples() {
        LineTiming line = new LineTiming(11_000_000);
        double silenceUs = line.silenceUs();
        assertThat(line.roundTripUs(block(Table.DISCRETE_INPUT, 22)) - silenceUs)
                .isCloseTo(8 + 8, within(1e-9));
        assertThat(line.roundTripUs(block(Table.INPUT_REGISTER, 1)) - silenceUs).isCloseTo(8 + 7, within(1e-9));
        assertThat(line.roundTripUs(block(Table.COIL, 1)) - silenceUs).isCloseTo(8 + 8, within(1e-9));
        assertThat(line.roundTripUs(block(Table.HOLDING_REGISTER, 2)) - silenceUs)
                .isCloseTo(13 + 8, within(1e-9));
    }

    @Test
    void blocksOfOneReadingAreParted() {
        LineTiming line = new LineTiming(9_600);
        RegisterBlock one = block(Table.INPUT_REGISTER, 8);
        assertThat(line.roundTripUs(List.of(one, one)))
                .isCloseTo(2 * line.roundTripUs(one) + line.silenceUs(), within(1e-6));
        assertThat(line.roundTripUs(List.of())).isZero();
    }

    private static RegisterBlock block(Table table, int points) {
        return new RegisterBlock(1, table, 0, Collections.nCopies(points, "P"));
    }
}
