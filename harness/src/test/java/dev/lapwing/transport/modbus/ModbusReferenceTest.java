package dev.lapwing.transport.modbus;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Register.Table;
import dev.lapwing.bench.RegisterBlock;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.serial.TerminalPair;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
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
        assertSends("110200C40016BAA9", line -> read(line, block(Table.DISCRETE_INPUT, 0xC4, 22)));
        assertSends("110400080001B298", line -> read(line, block(Table.INPUT_REGISTER, 8, 1)));
        assertSends("110500ACFF004E8B", line -> write(line, block(Table.COIL, 0xAC, 1), 1));
        assertSends("1106000100039A9B", line -> write(line, block(Table.HOLDING_REGISTER, 1, 1), 3));
        assertSends("11100001000204000A0102C6F0", line -> write(line, block(Table.HOLDING_REGISTER, 1, 2), 10, 0x102));
    }

    /**
     * The answers of the same examples: inputs 197 to 218 are AC DB 35, input register 9 is 10. Their CRCs are worked
     * out by this test's own division, held below against the published check value.
     */
    @Test
    void answersAreReadAsTheSpecificationReadsThem() throws Exception {
        int[] inputs = read("110203ACDB35", block(Table.DISCRETE_INPUT, 0xC4, 22));
        assertThat(inputs)
                .startsWith(0, 0, 1, 1, 0, 1, 0, 1, 1, 1, 0, 1, 1, 0, 1, 1)
                .endsWith(1, 0, 1, 0, 1, 1);
        assertThat(read("110402000A", block(Table.INPUT_REGISTER, 8, 1))).containsExactly(10);
    }

    /**
     * Source: the worked frames of public test suites for the specification's examples at module 17: 11 01 00 13 00 25
     * with CRC 0E 84, 11 03 00 6B 00 03 with 76 87, and 4B37 as the check value of CRC-16/MODBUS over "123456789".
     */
    @Test
    void theCheckSumIsTheSpecifications() {
        assertThat(HandMadeModules.crc("123456789".getBytes(StandardCharsets.US_ASCII)))
                .isEqualTo(0x4B37);
        HexFormat hex = HexFormat.of().withUpperCase();
        assertThat(hex.formatHex(HandMadeModules.frame("110100130025"))).endsWith("0E84");
        assertThat(hex.formatHex(HandMadeModules.frame("1103006B0003"))).endsWith("7687");
    }

    /** Source: section 7 of the same: the function with its highest bit set; code 2, an address that is not there. */
    @Test
    void aRefusalIsReadAsTheSpecificationReadsIt() {
        assertThatThrownBy(() -> read("118202", block(Table.DISCRETE_INPUT, 0xC4, 22)))
                .hasMessageContaining("refused")
                .hasMessageContaining("exception 2");
    }

    private static int[] read(String answer, RegisterBlock block) throws Exception {
        try (HandMadeModules modules = new HandMadeModules();
                ModbusLine line = ModbusLine.open(at(modules.device(), 20_000_000), MonotonicClock.system())) {
            modules.behave(asked -> List.of(HandMadeModules.frame(answer)));
            return line.read(block);
        }
    }

    /** @param answerUs so long an answer is awaited: short where none comes, long where one does */
    private static LinkChoice.Modbus at(String device, long answerUs) {
        return new LinkChoice.Modbus(device, 19_200, LinkChoice.Parity.EVEN, 20_000, answerUs, List.of());
    }

    /** Nobody answers: what counts is what was sent, and that nothing else was. */
    private static void assertSends(String frame, Consumer<ModbusLine> ask) throws Exception {
        ByteArrayOutputStream sent = new ByteArrayOutputStream();
        try (TerminalPair pair = new TerminalPair(sent::writeBytes);
                ModbusLine line = ModbusLine.open(at(pair.one(), 20_000), MonotonicClock.system())) {
            ask.accept(line);
            await("the request is at the other end").until(() -> sent.size() >= frame.length() / 2);
        }
        assertThat(HexFormat.of().withUpperCase().formatHex(sent.toByteArray())).isEqualTo(frame);
    }

    private static RegisterBlock block(Table table, int first, int size) {
        return new RegisterBlock(0x11, table, first, Collections.nCopies(size, "P"));
    }

    private static void read(ModbusLine line, RegisterBlock block) {
        try {
            line.read(block);
            throw new AssertionError("nobody was there to answer");
        } catch (IOException e) {
            assertThat(e).hasMessageContaining("module 17 gave no good answer");
        }
    }

    private static void write(ModbusLine line, RegisterBlock block, int... values) {
        try {
            line.write(block, values);
            throw new AssertionError("nobody was there to answer");
        } catch (IOException e) {
            assertThat(e).hasMessageContaining("module 17 gave no good answer");
        }
    }
}
