package dev.lapwing.transport.modbus;

import dev.lapwing.transport.serial.FarEnd;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;

/**
 * Modules at the other end of a line, made from the protocol's text alone and sharing no code with the library: what
 * they say can be spoilt byte by byte.
 *
 * <p>Source: Modbus Application Protocol V1.1b3, chapter 6; CRC of Modbus over Serial Line V1.02, section 6.2.2.
 */
final class HandMadeModules implements AutoCloseable {
    private static final int REQUEST_BYTES = 8;

    final Map<Integer, Integer> coils = new ConcurrentHashMap<>();
    final Map<Integer, Integer> inputs = new ConcurrentHashMap<>();
    final Map<Integer, Integer> words = new ConcurrentHashMap<>();
    /** Every value that was written to holding register 0, in order. */
    final List<Integer> written = new ArrayList<>();

    private final FarEnd end;
    /** Where holding registers are kept among the words. */
    private static final int DRIVEN = 1_000;

    private final ByteArrayOutputStream heard = new ByteArrayOutputStream();
    private volatile Function<Asked, List<byte[]>> manners = asked -> List.of(answer(asked));

    /** A request: module, function, first address, and number or value. */
    record Asked(int module, int function, int first, int number, byte[] frame) {}

    HandMadeModules() throws IOException {
        end = new FarEnd(this::hear);
    }

    String device() {
        return end.device();
    }

    /** From now on they answer so: frames that are said one after the other. */
    void behave(Function<Asked, List<byte[]>> how) {
        manners = how;
    }

    /** Requests come one by one, but a busy machine hands over two at once. */
    private void hear(byte[] bytes) {
        heard.writeBytes(bytes);
        byte[] left = heard.toByteArray();
        for (int length = length(left); left.length >= length; length = length(left)) {
            byte[] frame = Arrays.copyOf(left, length);
            left = Arrays.copyOfRange(left, length, left.length);
            Asked asked = new Asked(frame[0] & 0xFF, frame[1] & 0xFF, word(frame, 2), word(frame, 4), frame);
            manners.apply(asked).forEach(end::say);
        }
        heard.reset();
        heard.writeBytes(left);
    }

    private static int length(byte[] frame) {
        return frame.length >= 7 && (frame[1] == 0x0F || frame[1] == 0x10)
                ? REQUEST_BYTES + 1 + (frame[6] & 0xFF)
                : REQUEST_BYTES;
    }

    /** What a module that works answers. */
    byte[] answer(Asked asked) {
        byte[] start = {(byte) asked.module(), (byte) asked.function()};
        return switch (asked.function()) {
            case 1, 2 -> withCrc(joined(start, bits(asked.function() == 1 ? coils : inputs, asked)));
            case 3, 4 -> withCrc(joined(start, words(asked, asked.function() == 3 ? DRIVEN : 0)));
            case 5 -> {
                coils.put(asked.first(), asked.number() == 0 ? 0 : 1);
                yield asked.frame();
            }
            case 6 -> {
                write(asked.first(), asked.number());
                yield asked.frame();
            }
            case 0x0F -> {
                for (int i = 0; i < asked.number(); i++) {
                    coils.put(asked.first() + i, asked.frame()[7 + i / 8] >> i % 8 & 1);
                }
                yield withCrc(Arrays.copyOf(asked.frame(), 6));
            }
            case 0x10 -> {
                for (int i = 0; i < asked.number(); i++) {
                    write(asked.first() + i, word(asked.frame(), 7 + 2 * i));
                }
                yield withCrc(Arrays.copyOf(asked.frame(), 6));
            }
            default -> refusal(asked, 1);
        };
    }

    private void write(int address, int value) {
        words.put(DRIVEN + address, value);
        if (address == 0) {
            synchronized (written) {
                written.add(value);
            }
        }
    }

    /** What a module says that refuses. */
    static byte[] refusal(Asked asked, int why) {
        return withCrc(new byte[] {(byte) asked.module(), (byte) (asked.function() | 0x80), (byte) why});
    }

    private static byte[] bits(Map<Integer, Integer> of, Asked asked) {
        byte[] data = new byte[1 + (asked.number() + 7) / 8];
        data[0] = (byte) (data.length - 1);
        for (int i = 0; i < asked.number(); i++) {
            data[1 + i / 8] |= (byte) (of.getOrDefault(asked.first() + i, 0) << i % 8);
        }
        return data;
    }

    private byte[] words(Asked asked, int offset) {
        byte[] data = new byte[1 + 2 * asked.number()];
        data[0] = (byte) (data.length - 1);
        for (int i = 0; i < asked.number(); i++) {
            int value = words.getOrDefault(offset + asked.first() + i, 0);
            data[1 + 2 * i] = (byte) (value >> 8);
            data[2 + 2 * i] = (byte) value;
        }
        return data;
    }

    private static int word(byte[] frame, int at) {
        return (frame[at] & 0xFF) << 8 | frame[at + 1] & 0xFF;
    }

    private static byte[] joined(byte[] one, byte[] other) {
        byte[] both = Arrays.copyOf(one, one.length + other.length);
        System.arraycopy(other, 0, both, one.length, other.length);
        return both;
    }

    /** The frame of these bytes, CRC low byte first. */
    static byte[] withCrc(byte[] bytes) {
        int crc = crc(bytes);
        return joined(bytes, new byte[] {(byte) crc, (byte) (crc >> 8)});
    }

    /** The frame of these bytes, written in hex. */
    static byte[] frame(String hex) {
        return withCrc(HexFormat.of().parseHex(hex));
    }

    static int crc(byte[] bytes) {
        int crc = 0xFFFF;
        for (byte each : bytes) {
            crc ^= each & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) == 0 ? crc >> 1 : crc >> 1 ^ 0xA001;
            }
        }
        return crc;
    }

    @Override
    public void close() {
        end.close();
    }
}
