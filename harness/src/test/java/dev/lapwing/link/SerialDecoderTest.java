package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Messages are found however the bytes are cut, and whatever else is among them. */
class SerialDecoderTest {
    private static final String JSON = "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"}";
    private static final byte[] LINE = SerialEncoder.line(JSON.getBytes(UTF_8));

    /** The bench's pieces are well framed; its dense messages here hold line feeds, to be taken for lines. */
    private static final byte[] CBOR = "q1\nq2\n{} 00000000\nq3".getBytes(ISO_8859_1);

    private static final byte[] DENSE = SerialEncoder.dense(CBOR);

    private final List<String> found = new ArrayList<>();
    private boolean messages = true;
    private final SerialDecoder.Sink sink = new SerialDecoder.Sink() {
        @Override
        public boolean line(byte[] json) {
            found.add("line " + new String(json, UTF_8));
            return messages;
        }

        @Override
        public boolean dense(byte[] cbor) {
            found.add("dense " + HexFormat.of().formatHex(cbor));
            return messages;
        }
    };
    private SerialDecoder decoder = SerialDecoder.ofBench();

    @Test
    void aLineIsFoundByteByByte() {
        feed(LINE);
        assertEquals(List.of("line " + JSON), found);
        assertEquals(0, decoder.bad());
    }

    @Test
    void noiseOnAQuietLineDoesNotTakeTheNextOpenedLineWithIt() {
        feed("\u0001zz{");
        feed(SerialEncoder.opened(new HostMessage.Ping("5be1c07d", 3)));
        assertEquals(1, found.size());
        assertEquals(1, decoder.bad());
    }

    @Test
    void emptyLinesAreIgnored() {
        feed("\n\n\n");
        feed(LINE);
        feed("\n");
        assertEquals(1, found.size());
        assertEquals(0, decoder.bad());
    }

    @Test
    void spacesInsideAndBeforeTheCrcAreText() {
        byte[] spaced = SerialEncoder.line((" " + JSON + "  ").getBytes(UTF_8));
        feed(spaced);
        assertEquals(List.of("line  " + JSON + "  "), found);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"} f030ef98\n",
                "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"} F030EF99\n",
                "{\"m\":\"ping\",\"id\":4,\"session\":\"5be1c07d\"} f030ef99\n",
                "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"} f030ef99\r\n",
                "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"}f030ef99\n",
                "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"}\n",
                " 00000000\n",
                "x\n",
            })
    void aLineThatIsNotRightIsDroppedAndCounted(String line) {
        decoder = SerialDecoder.ofHost(4096);
        feed(line);
        assertEquals(List.of(), found);
        assertEquals(1, decoder.bad());
        feed(LINE);
        assertEquals(1, found.size());
    }

    @Test
    void aCarriageReturnWithAGoodCrcIsNotRightEither() {
        decoder = SerialDecoder.ofHost(4096);
        feed(SerialEncoder.line(("{\r" + JSON.substring(1)).getBytes(UTF_8)));
        assertEquals(1, decoder.bad());
    }

    @Test
    void whatTheSinkDoesNotTakeIsCounted() {
        messages = false;
        feed(LINE);
        feed("\0\0");
        assertEquals(1, decoder.bad());
        feed(DENSE);
        assertEquals(1 + pieces(DENSE), decoder.bad());
    }

    @Test
    void theLongestLineIsTakenAndOneByteMoreIsNot() {
        decoder = SerialDecoder.ofHost(4096);
        feed(SerialEncoder.line("x".repeat(4096 - 10).getBytes(UTF_8)));
        assertEquals(1, found.size());
        feed(SerialEncoder.line("x".repeat(4096 - 9).getBytes(UTF_8)));
        assertEquals(1, found.size());
        assertEquals(1, decoder.bad());
        feed(LINE);
        assertEquals(2, found.size());
    }

    @Test
    void theLongestDenseMessageIsTakenAndOneByteMoreIsNot() {
        // COBS adds one byte to each begun 254: 16317 bytes with their CRC become 16382.
        feed(SerialEncoder.dense(ones(16_317 - 4)));
        assertEquals(1, found.size());
        feed(SerialEncoder.dense(ones(16_318 - 4)));
        assertEquals(1, found.size());
        feed(DENSE);
        assertEquals(2, found.size());
    }

    @Test
    void denseMessagesMayHoldWhatLooksLikeLines() {
        for (int i = 0; i < 3; i++) {
            feed(DENSE);
            feed(LINE);
        }
        assertEquals(6, found.size());
        assertEquals(0, decoder.bad());
    }

    @Test
    void aLineIsFoundAtOnceAndNotOnlyWithTheNextZero() {
        feed(DENSE);
        feed(LINE);
        assertEquals(List.of("dense " + HexFormat.of().formatHex(CBOR), "line " + JSON), found);
    }

    @Test
    void aLostZeroCostsOneDenseMessageOnly() {
        feed(DENSE);
        feed(DENSE, 1, DENSE.length - 1);
        feed(LINE);
        feed(DENSE, 0, DENSE.length - 1);
        feed(DENSE);
        assertEquals(5, found.size(), "a lost zero at the beginning costs nothing behind another's end");
        assertEquals(0, decoder.bad());
        found.clear();
        feed(LINE);
        feed(DENSE, 1, DENSE.length - 1);
        feed(DENSE);
        assertEquals(2, found.size());
        assertTrue(decoder.bad() > 0);
    }

    @Test
    void aZeroInALineCutsIt() {
        decoder = SerialDecoder.ofHost(4096);
        feed("{\"m\":\"pi\0");
        feed(LINE);
        assertEquals(1, found.size());
        assertEquals(1, decoder.bad());
    }

    @Test
    void withoutDenseMessagesGarbageIsCountedAtOnceWhenItCannotBePartOfOne() {
        feed(LINE);
        feed("garbage\n");
        feed("garbage\n");
        assertEquals(2, decoder.bad(), "a line has been since the last zero: no dense message is under way");
    }

    /** However noise and messages follow each other, every message that stands between whole pieces is found. */
    @Test
    void everyMessageAmongNoiseIsFound() {
        SplittableRandom random = new SplittableRandom(5);
        for (int round = 0; round < 300; round++) {
            decoder = SerialDecoder.ofBench();
            found.clear();
            int sent = 0;
            ByteArrayOutputStream wire = new ByteArrayOutputStream();
            for (int i = 0; i < 20; i++) {
                switch (random.nextInt(3)) {
                    case 0 -> wire.writeBytes(LINE);
                    case 1 -> wire.writeBytes(DENSE);
                    default -> {
                        byte[] noise = new byte[random.nextInt(40)];
                        random.nextBytes(noise);
                        wire.writeBytes(noise);
                        wire.writeBytes(random.nextBoolean() ? new byte[] {'\n'} : new byte[] {'\n', 0, 0});
                        sent--;
                    }
                }
                sent++;
            }
            byte[] bytes = wire.toByteArray();
            for (int at = 0; at < bytes.length; ) {
                int length = Math.min(bytes.length - at, 1 + random.nextInt(50));
                decoder.accept(bytes, at, length, sink);
                at += length;
            }
            assertEquals(sent, found.size(), "round " + round);
        }
    }

    private void feed(String bytes) {
        feed(bytes.getBytes(ISO_8859_1));
    }

    private void feed(byte[] bytes) {
        feed(bytes, 0, bytes.length);
    }

    private void feed(byte[] bytes, int offset, int length) {
        for (int i = offset; i < offset + length; i++) {
            decoder.accept(bytes, i, 1, sink);
        }
    }

    private static byte[] ones(int length) {
        byte[] bytes = new byte[length];
        Arrays.fill(bytes, (byte) 1);
        return bytes;
    }

    /** Pieces between line feeds and zeros. */
    private static int pieces(byte[] framed) {
        int pieces = 1;
        for (byte one : framed) {
            pieces += one == '\n' ? 1 : 0;
        }
        return pieces;
    }
}
