package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Spoilt inputs into everything that reads bytes: no exception comes out, what is read can be written, and what is
 * written is read the same. {@code -Dlapwing.inputs=1000000} draws a million, {@code -Dlapwing.seed=N} others.
 */
class LinkFuzzTest {
    private static final int INPUTS = Integer.getInteger("lapwing.inputs", 300_000);
    private static final long SEED = Long.getLong("lapwing.seed", 20);

    private static final List<byte[]> MESSAGES =
            WorkedLines.lines().stream().map(WorkedLines::json).toList();
    private static final List<Boolean> OF_BENCH =
            WorkedLines.lines().stream().map(WorkedLines::ofBench).toList();
    private static final List<byte[]> MAPS = maps();

    private static final String[] SPLICES = {
        "{",
        "}",
        "[",
        "]",
        "\"",
        ":",
        ",",
        "null",
        "-",
        "9223372036854775808",
        "1e9",
        "0.5",
        "\\u0000",
        "\\ud800",
        "{\"m\":\"set\"}",
        "[[[[[[[[[[[[",
        "{\"a\":{\"a\":{\"a\":{\"a\":",
        "\"m\":\"arm\",",
        "\"id\":1,",
        "true",
        "\r",
        "\u0000",
        "ü",
        "\"v\":[[1],[2,3]]",
        "\"points\":[]",
        "\"limits\":{\"P1\":[null,null]}",
    };

    private final SplittableRandom random = new SplittableRandom(SEED);
    private int read;

    @Test
    void noBytesUpsetAReader() {
        for (int i = 0; i < INPUTS / 2; i++) {
            int which = random.nextInt(MESSAGES.size());
            byte[] json = spoilt(MESSAGES.get(which), true);
            // One in eight goes to the reader that it was not meant for.
            boolean ofBench = OF_BENCH.get(which) == (random.nextInt(8) > 0);
            read += ofBench
                    ? MessageReader.benchMessage(json).map(this::sameAgain).orElse(0)
                    : CommandReader.hostMessage(json).map(this::sameAgain).orElse(0);
            if (i % 16 == 0) {
                MessageReader.here(json);
            }
        }
        assertTrue(
                read > INPUTS / 20, "only " + read + " inputs could be read: the spoiling is too harsh to test much");
    }

    @Test
    void noBytesUpsetTheReaderOfDenseSamples() {
        for (int i = 0; i < INPUTS / 4; i++) {
            byte[] cbor = spoilt(MAPS.get(random.nextInt(MAPS.size())), false);
            MessageReader.denseSamples(cbor)
                    .ifPresent(message -> assertEquals(
                            message,
                            MessageReader.denseSamples(MessageWriter.dense((Samples) message))
                                    .orElseThrow()));
        }
    }

    /**
     * What comes over a line, with good checks as often as not, in pieces of any length, into decoders that live on.
     */
    @Test
    void noBytesUpsetADecoder() {
        SerialDecoder ofBench = SerialDecoder.ofBench();
        SerialDecoder ofHost = SerialDecoder.ofHost(4096);
        SerialDecoder.Sink sink = new SerialDecoder.Sink() {
            @Override
            public boolean line(byte[] json) {
                read++;
                return MessageReader.benchMessage(json).isPresent()
                        || CommandReader.hostMessage(json).isPresent();
            }

            @Override
            public boolean dense(byte[] cbor) {
                read++;
                return MessageReader.denseSamples(cbor).isPresent();
            }
        };
        for (int i = 0; i < INPUTS / 4; i++) {
            byte[] framed = framed();
            byte[] wire = random.nextBoolean() ? framed : spoilt(framed, false);
            SerialDecoder decoder = random.nextInt(4) > 0 ? ofBench : ofHost;
            int cut = random.nextInt(wire.length + 1);
            decoder.accept(wire, 0, cut, sink);
            decoder.accept(wire, cut, wire.length - cut, sink);
        }
        assertTrue(read > INPUTS / 10, read + " frames were found");
        assertTrue(ofBench.bad() > INPUTS / 100 && ofHost.bad() > INPUTS / 200, "and bad ones counted");
    }

    private byte[] framed() {
        return random.nextBoolean()
                ? SerialEncoder.line(spoilt(MESSAGES.get(random.nextInt(MESSAGES.size())), true))
                : SerialEncoder.dense(spoilt(MAPS.get(random.nextInt(MAPS.size())), false));
    }

    private int sameAgain(BenchMessage message) {
        Optional<BenchMessage> again = MessageReader.benchMessage(MessageWriter.json(message));
        assertEquals(Optional.of(message), again);
        return 1;
    }

    private int sameAgain(HostMessage message) {
        boolean sent = !(message instanceof HostMessage.Unreadable)
                && !(message instanceof HostMessage.Safe safe && !safe.answerable());
        if (sent) {
            assertEquals(Optional.of(message), CommandReader.hostMessage(CommandWriter.json(message)));
        }
        return sent ? 1 : 0;
    }

    /** A few random changes: bits, bytes, pieces cut, doubled, or spliced in. */
    private byte[] spoilt(byte[] good, boolean text) {
        byte[] bytes = good;
        for (int changes = random.nextInt(4); changes > 0; changes--) {
            int at = random.nextInt(bytes.length + 1);
            int to = Math.min(bytes.length, at + random.nextInt(12));
            bytes = switch (random.nextInt(text ? 5 : 4)) {
                case 0 -> flipped(bytes);
                case 1 -> joined(bytes, at, new byte[0], to);
                case 2 -> joined(bytes, to, new byte[0], at);
                case 3 -> joined(bytes, at, noise(), at);
                default -> joined(bytes, at, SPLICES[random.nextInt(SPLICES.length)].getBytes(UTF_8), to);
            };
        }
        return bytes;
    }

    private byte[] flipped(byte[] bytes) {
        byte[] flipped = bytes.clone();
        if (flipped.length > 0) {
            flipped[random.nextInt(flipped.length)] ^= (byte) (1 << random.nextInt(8));
        }
        return flipped;
    }

    private byte[] noise() {
        byte[] noise = new byte[random.nextInt(8)];
        random.nextBytes(noise);
        return noise;
    }

    /** Up to {@code head}, then {@code middle}, then from {@code tail} on. */
    private static byte[] joined(byte[] bytes, int head, byte[] middle, int tail) {
        byte[] joined = new byte[head + middle.length + bytes.length - tail];
        System.arraycopy(bytes, 0, joined, 0, head);
        System.arraycopy(middle, 0, joined, head, middle.length);
        System.arraycopy(bytes, tail, joined, head + middle.length, bytes.length - tail);
        return joined;
    }

    private static List<byte[]> maps() {
        List<byte[]> maps = new ArrayList<>();
        for (int rows : new int[] {0, 1, 40, 130}) {
            maps.add(MessageWriter.dense(
                    new Samples("5be1c07d", rows, "quick", 6, 1_600_000, 200, List.of("P1", "P2"), new int[2 * rows])));
        }
        return maps;
    }
}
