package dev.lapwing.link;

import java.util.Arrays;
import java.util.zip.CRC32;

/** Messages as they go over a serial line. */
public final class SerialEncoder {
    /** What a sender writes first after opening the port: it ends whatever the line had begun. */
    public static final byte OPENING = '\n';

    private static final byte[] HEX = {'0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f'};

    private SerialEncoder() {}

    /** What a host says, as a line. */
    public static byte[] of(HostMessage message) {
        return line(CommandWriter.json(message));
    }

    /**
     * What a host says, as a line with an empty one before it: noise on a line that was quiet ends there, and does not
     * take a heartbeat with it.
     */
    public static byte[] opened(HostMessage message) {
        byte[] line = of(message);
        byte[] opened = new byte[line.length + 1];
        opened[0] = OPENING;
        System.arraycopy(line, 0, opened, 1, line.length);
        return opened;
    }

    /** What a bench says, as a line or as a dense message. */
    public static byte[] of(BenchMessage message) {
        return message instanceof Samples samples && samples.dense()
                ? dense(MessageWriter.dense(samples))
                : line(MessageWriter.json(message));
    }

    /** A line: the JSON text, a space, its CRC-32, a line feed. */
    public static byte[] line(byte[] json) {
        byte[] line = Arrays.copyOf(json, json.length + Wire.LINE_EXTRA_BYTES);
        long crc = crc(json, json.length);
        line[json.length] = ' ';
        for (int i = 0; i < 8; i++) {
            line[json.length + 1 + i] = HEX[(int) (crc >> 28 - 4 * i) & 0xf];
        }
        line[line.length - 1] = '\n';
        return line;
    }

    /** A dense message: CBOR and its CRC-32, encoded without zeros, between two zeros. */
    public static byte[] dense(byte[] cbor) {
        byte[] summed = Arrays.copyOf(cbor, cbor.length + 4);
        long crc = crc(cbor, cbor.length);
        for (int i = 0; i < 4; i++) {
            summed[cbor.length + i] = (byte) (crc >> 24 - 8 * i);
        }
        byte[] coded = Cobs.encode(summed);
        byte[] framed = new byte[coded.length + 2];
        System.arraycopy(coded, 0, framed, 1, coded.length);
        return framed;
    }

    /** CRC-32 of ISO-HDLC: polynomial 04C11DB7 reflected, all ones before and after. */
    static long crc(byte[] bytes, int length) {
        CRC32 crc = new CRC32();
        crc.update(bytes, 0, length);
        return crc.getValue();
    }
}
