package dev.lapwing.link;

import java.util.Arrays;
import java.util.Optional;

/**
 * Consistent Overhead Byte Stuffing: bytes without a zero, at most one byte in 254 longer. Source: S. Cheshire, M.
 * Baker, "Consistent Overhead Byte Stuffing", IEEE/ACM Transactions on Networking 7 (1999). As there, 254 bytes
 * without a zero at the very end take no further code byte.
 */
final class Cobs {
    private static final int RUN_MAX = 254;

    private Cobs() {}

    /** Greatest encoded length of so many bytes. */
    static int lengthMax(int bytes) {
        return bytes + bytes / RUN_MAX + 1;
    }

    static byte[] encode(byte[] bytes) {
        byte[] coded = new byte[lengthMax(bytes.length)];
        int code = 0;
        int to = 1;
        for (int i = 0; i < bytes.length; i++) {
            if (bytes[i] != 0) {
                coded[to++] = bytes[i];
            }
            boolean full = to - code == RUN_MAX + 1;
            if (bytes[i] == 0 || full && i + 1 < bytes.length) {
                coded[code] = (byte) (to - code);
                code = to++;
            }
        }
        coded[code] = (byte) (to - code);
        return Arrays.copyOf(coded, to);
    }

    /** Empty if a code byte points past the end, or a zero stands inside. */
    static Optional<byte[]> decode(byte[] coded, int length) {
        byte[] bytes = new byte[length];
        int to = 0;
        int from = 0;
        while (from < length) {
            int code = coded[from++] & 0xff;
            if (code == 0 || from + code - 1 > length) {
                return Optional.empty();
            }
            int run = code - 1;
            for (int i = from; i < from + run; i++) {
                if (coded[i] == 0) {
                    return Optional.empty();
                }
            }
            System.arraycopy(coded, from, bytes, to, run);
            from += run;
            to += run;
            if (code <= RUN_MAX && from < length) {
                bytes[to++] = 0;
            }
        }
        return Optional.of(Arrays.copyOf(bytes, to));
    }
}
