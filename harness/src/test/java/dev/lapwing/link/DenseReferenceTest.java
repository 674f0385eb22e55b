package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Reading and writing of CBOR. Source: RFC 8949, appendix A (examples of encoded data items), each put as the only
 * member {@code "a"} of a map; the same list is published as cbor/test-vectors, appendix_a.json, commit aba89b6.
 */
class DenseReferenceTest {
    private static final HexFormat HEX = HexFormat.of();

    @ParameterizedTest(name = "{1} is {0}")
    @CsvSource({
        "0, 00",
        "23, 17",
        "24, 1818",
        "100, 1864",
        "1000, 1903e8",
        "1000000, 1a000f4240",
        "1000000000000, 1b000000e8d4a51000",
        "-1, 20",
        "-10, 29",
        "-1000, 3903e7",
    })
    void integersAreRead(long expected, String cbor) throws UnreadableMessage {
        assertEquals(expected, member(cbor).number("a", Long.MIN_VALUE, Long.MAX_VALUE));
    }

    /** 2⁶⁴ − 1, floats, null, tagged values and the undefined one: legal CBOR, but no integer of this link. */
    @ParameterizedTest
    @CsvSource({
        "1bffffffffffffffff",
        "f90000",
        "f93c00",
        "fb3ff199999999999a",
        "fa47c35000",
        "f97c00",
        "f97e00",
        "f4",
        "f6",
        "f7",
        "60",
        "80",
        "a0",
        "c074323031332d30332d32315432303a30343a30305a",
    })
    void whatIsNoIntegerIsReadButNotTakenForOne(String cbor) throws UnreadableMessage {
        Members members = member(cbor);
        assertTrue(members.has("a"));
        assertThrows(UnreadableMessage.class, () -> members.number("a", Long.MIN_VALUE, Long.MAX_VALUE));
    }

    @ParameterizedTest(name = "{1} is {0}")
    @CsvSource({"'', 60", "a, 6161", "IETF, 6449455446", "ü, 62c3bc", "streaming, 7f657374726561646d696e67ff"})
    void textIsRead(String expected, String cbor) throws UnreadableMessage {
        assertEquals(expected, member(cbor).text("a"));
    }

    @Test
    void truthIsRead() throws UnreadableMessage {
        assertEquals(false, member("f4").flag("a"));
        assertEquals(true, member("f5").flag("a"));
    }

    @Test
    void bytesListsAndMapsAreRead() throws UnreadableMessage {
        assertArrayEquals(new byte[] {1, 2, 3, 4}, member("4401020304").bytes("a"));
        assertEquals(List.of(1L, 2L, 3L), member("83010203").list("a"));
        assertEquals(
                List.of(1L, List.of(2L, 3L), List.of(4L, 5L)),
                member("8301820203820405").list("a"));
        assertEquals(
                List.of(1L, List.of(2L, 3L), List.of(4L, 5L)),
                member("9f01820203820405ff").list("a"));
        assertEquals(List.of(), member("9fff").list("a"));
        Members inner = member("a26161016162820203").object("a");
        assertEquals(1, inner.number("a", 0, 9));
        assertEquals(List.of(2L, 3L), inner.list("b"));
        assertEquals(
                List.of(2L, 3L), member("bf61610161629f0203ffff").object("a").list("b"));
    }

    /**
     * Source: RFC 8949, appendix F, "not well-formed": too little input, reserved values, a break in the wrong place.
     */
    @ParameterizedTest
    @CsvSource({
        "18",
        "19",
        "1a0102",
        "5affffffff00",
        "62c3",
        "82",
        "a161",
        "1c",
        "5d00",
        "fc",
        "ff",
        "5f00ff",
        "bf6161ff"
    })
    void whatIsNotWellFormedIsNoMessage(String cbor) {
        assertThrows(UnreadableMessage.class, () -> member(cbor));
    }

    /**
     * Source: RFC 8949, 3.1 and 4.2.1: preferred lengths; a map of nine members is a9, a byte string of 24 or more 58.
     */
    @Test
    void samplesAreAMapOfDefiniteLengthWithShortestHeads() {
        int[] counts = new int[12];
        counts[11] = -32768;
        byte[] cbor = MessageWriter.dense(new Samples("5be1c07d", 23, "q", 24, 256, 65_536, List.of("P1"), counts));
        String expected = "a9" + text("m") + text("samples") + text("n") + "17" + text("session") + text("5be1c07d")
                + text("name") + text("q") + text("of") + "1818" + text("t0-us") + "190100" + text("every-us")
                + "1a00010000" + text("points") + "81" + text("P1") + text("v") + "5818" + "0000".repeat(11) + "0080";
        assertEquals(expected, HEX.formatHex(cbor));
        Samples read = (Samples) MessageReader.denseSamples(cbor).orElseThrow();
        assertEquals(-32768, read.count(11, 0));
    }

    /** Items of appendix A, and maps with integers as keys: all of them may be in a member that nobody asks for. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "f0",
                "f8ff",
                "f7",
                "3bffffffffffffffff",
                "c249010000000000000000",
                "c349010000000000000000",
                "c11a514b67b0",
                "d74401020304",
                "d818456449455446",
                "fb7e37e43c8800759c",
                "fbfff0000000000000",
                "5f42010243030405ff",
                "7f657374726561646d696e67ff",
                "9f018202039f0405ffff",
                "bf61610161629f0203ffff",
                "a201020304",
                "a1412001",
            })
    void whateverIsInAnUnknownMemberSamplesAreTaken(String item) {
        Samples samples = new Samples("5be1c07d", 23, "q", 24, 256, 65_536, List.of("P1"), new int[] {1, -2}).asDense();
        String cbor = HEX.formatHex(MessageWriter.dense(samples));
        byte[] more = HEX.parseHex("aa6178" + item + cbor.substring(2));
        assertEquals(samples, MessageReader.denseSamples(more).orElseThrow());
    }

    @Test
    void aCountBeyondSixteenBitsIsNeverWrittenDense() {
        Samples samples = new Samples("5be1c07d", 1, "q", 1, 0, 1, List.of("P1"), new int[] {32768});
        assertThrows(IllegalArgumentException.class, () -> MessageWriter.dense(samples));
    }

    private static Members member(String cbor) throws UnreadableMessage {
        return Members.ofCbor(HEX.parseHex("a16161" + cbor));
    }

    private static String text(String text) {
        return HEX.toHexDigits((byte) (0x60 + text.length())) + HEX.formatHex(text.getBytes(US_ASCII));
    }
}
