package dev.lapwing.transport.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Register.Table;
import dev.lapwing.transport.serial.TerminalPair;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/**
 * What goes out on the line, held against the protocol's own examples.
 *
 * <p>Source: Modbus Application Protocol Specification V1.1b3 (Modbus Organization, 2012), the examples of sections 6.2
 * (discrete inputs 197 to 218), 6.4 (input register 9), 6.5 (coil 173), 6.6 (register 2), 6.12 (two registers from 2),
 * at module 17 (11 hex) as in the examples that public test suites carry. The CRC-16 is that of Modbus over Serial Line
 * V1.02, appendix B, worked out apart from the library.
 */
class ModbusReferenceTest {
    @Test
    void requestsAreThoseOfTheSpecification() throws Exception {
        assertThat(sent(line -> read(line, block(Table.DISCRETE_INPUT, 0xC4, 22))))
                .isEqualTo("110200C40016BAA9");
        assertThat(sent(line -> read(line, block(Table.INPUT_REGISTER, 8, 1)))).isEqualTo("110400080001B298");
        assertThat(sent(line -> write(line, block(Table.COIL, 0xAC, 1), 1))).isEqualTo("110500ACFF004E8B");
        assertThat(sent(line -> write(line, block(Table.HOLDING_REGISTER, 1, 1), 3)))
                .isEqualTo("1106000100039A9B");
        assertThat(sent(line -> write(line, block(Table.HOLDING_REGISTER, 1, 2), 10, 0x102)))
                .isEqualTo("11100001000204000A0102C6F0");
    }

    /** Nobody answers: what counts is what was sent. */
    private static String sent(Consumer<ModbusLine> ask) throws Exception {
        ByteArrayOutputStream sent = new ByteArrayOutputStream();
        try (TerminalPair pair = new TerminalPair(sent::writeBytes);
                ModbusLine line = ModbusLine.open(
                        new LinkChoice.Modbus(pair.one(), 19_200, LinkChoice.Parity.EVEN, 20_000, 20_000, List.of()))) {
            ask.accept(line);
        }
        return HexFormat.of().withUpperCase().formatHex(sent.toByteArray());
    }

    private static Block block(Table table, int first, int size) {
        return new Block(0x11, table, first, Collections.nCopies(size, "P"));
    }

    private static void read(ModbusLine line, Block block) {
        try {
            line.read(block);
            throw new AssertionError("nobody was there to answer");
        } catch (IOException e) {
            assertThat(e).hasMessageContaining("module 17 gave no good answer");
        }
    }

    private static void write(ModbusLine line, Block block, int... values) {
        try {
            line.write(block, values);
            throw new AssertionError("nobody was there to answer");
        } catch (IOException e) {
            assertThat(e).hasMessageContaining("module 17 gave no good answer");
        }
    }
}
