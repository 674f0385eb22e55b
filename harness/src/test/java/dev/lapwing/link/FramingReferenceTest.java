package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HexFormat;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** CRC and byte stuffing against published values. */
class FramingReferenceTest {
    private static final HexFormat HEX = HexFormat.of();

    /** Source: catalogue of parametrised CRC algorithms (G. Cook, RevEng), CRC-32/ISO-HDLC: check value cbf43926. */
    @Test
    void theCrcHasItsCatalogueCheckValue() {
        byte[] check = "123456789".getBytes(US_ASCII);
        assertEquals(0xcbf43926L, SerialEncoder.crc(check, check.length));
        assertEquals("123456789 cbf43926\n", new String(SerialEncoder.line(check), US_ASCII));
    }

    /**
     * Source: ISO/IEC 13239 (HDLC), 32-bit frame check: the remainder by x³² + x²⁶ + x²³ + x²² + x¹⁶ + x¹² + x¹¹ + x¹⁰
     * + x⁸ + x⁷ + x⁵ + x⁴ + x² + x + 1, bits reflected, ones before and after; divided out here bit by bit.
     */
    @Test
    void theCrcIsThePolynomialsRemainder() {
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < 200; i++) {
            byte[] bytes = new byte[random.nextInt(300)];
            random.nextBytes(bytes);
            int register = -1;
            for (byte one : bytes) {
                register ^= one & 0xff;
                for (int bit = 0; bit < 8; bit++) {
                    register = (register & 1) == 0 ? register >>> 1 : register >>> 1 ^ 0xedb88320;
                }
            }
            assertEquals(~register & 0xffffffffL, SerialEncoder.crc(bytes, bytes.length));
        }
    }

    /**
     * Source: test vectors of the public cobs-python library (cmcqueen/cobs-python, src/cobs/cobs/test.py, commit
     * 64f8c21). The algorithm: S. Cheshire, M. Baker, IEEE/ACM Transactions on Networking 7 (1999).
     */
    @ParameterizedTest(name = "{1}")
    @CsvSource({
        "'',                       01",
        "00,                       0101",
        "0000,                     010101",
        "3132333435,               063132333435",
        "31323334350036373839,     0631323334350536373839",
        "0031323334350036373839,   010631323334350536373839",
        "3132333435003637383900,   063132333435053637383901",
    })
    void stuffingIsThatOfThePublishedVectors(String plain, String coded) {
        assertArrayEquals(HEX.parseHex(coded), Cobs.encode(HEX.parseHex(plain)));
        assertArrayEquals(HEX.parseHex(plain), decoded(HEX.parseHex(coded)));
    }

    /** Source: as above: 01…FE takes one code byte, 01…FF two, 00…FF three. */
    @Test
    void longRunsAreStuffedAsInThePublishedVectors() {
        byte[] upToFe = counting(1, 254);
        byte[] upToFf = counting(1, 255);
        byte[] all = counting(0, 256);
        assertCoded("ff" + HEX.formatHex(upToFe), upToFe);
        assertCoded("ff" + HEX.formatHex(upToFe) + "02ff", upToFf);
        assertCoded("01ff" + HEX.formatHex(upToFe) + "02ff", all);
    }

    /** Source: as above: inputs that the library's decoder must reject. */
    @ParameterizedTest
    @ValueSource(strings = {"00", "05313233", "053132333400", "0531320034"})
    void whatWasNeverStuffedIsRejected(String coded) {
        byte[] bytes = HEX.parseHex(coded);
        assertTrue(Cobs.decode(bytes, bytes.length).isEmpty());
    }

    /** Source: the paper's bound, at most one byte in 254 more, rounded up, plus nothing; and no zero anywhere. */
    @Test
    void stuffedBytesHoldNoZeroAndAreHardlyLonger() {
        SplittableRandom random = new SplittableRandom(2);
        for (int i = 0; i < 2_000; i++) {
            byte[] plain = new byte[random.nextInt(1_200)];
            random.nextBytes(plain);
            int zeros = random.nextInt(4);
            for (int j = 0; j < plain.length; j++) {
                plain[j] = random.nextInt(4) < zeros ? 0 : plain[j];
            }
            byte[] coded = Cobs.encode(plain);
            for (byte one : coded) {
                assertTrue(one != 0);
            }
            assertTrue(coded.length <= Cobs.lengthMax(plain.length));
            assertArrayEquals(plain, decoded(coded));
        }
    }

    private static void assertCoded(String expected, byte[] plain) {
        assertEquals(expected, HEX.formatHex(Cobs.encode(plain)));
        assertArrayEquals(plain, decoded(HEX.parseHex(expected)));
    }

    private static byte[] decoded(byte[] coded) {
        return Cobs.decode(coded, coded.length).orElseThrow();
    }

    private static byte[] counting(int from, int count) {
        byte[] bytes = new byte[count];
        for (int i = 0; i < count; i++) {
            bytes[i] = (byte) (from + i);
        }
        return bytes;
    }
}
