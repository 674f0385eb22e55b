package dev.lapwing.link;

import java.io.ByteArrayOutputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.SplittableRandom;
import java.util.function.Function;

/** Carries bytes at a line's pace, as a serial port does: flips, loses and doubles them, late but in order. */
final class LossyLine<M> implements Carrier<M> {
    static final long BYTES_PER_SECOND = 92_160;

    private final SplittableRandom random;
    private final Function<M, byte[]> encode;
    private final SerialDecoder decoder;
    private final SerialDecoder.Sink sink;
    private final Queue<Piece> flying = new ArrayDeque<>();
    private final List<M> found = new ArrayList<>();
    private Weather weather = Weather.FAIR;
    private long freeNanos;
    private long lastDueNanos;

    private record Piece(byte[] bytes, long dueNanos) {}

    private LossyLine(
            SplittableRandom random,
            Function<M, byte[]> encode,
            SerialDecoder decoder,
            Function<byte[], Optional<M>> line,
            Function<byte[], Optional<M>> dense) {
        this.random = random;
        this.encode = encode;
        this.decoder = decoder;
        this.sink = new SerialDecoder.Sink() {
            @Override
            public boolean line(byte[] json) {
                return line.apply(json).map(found::add).orElse(false);
            }

            @Override
            public boolean dense(byte[] cbor) {
                return dense.apply(cbor).map(found::add).orElse(false);
            }
        };
    }

    static LossyLine<HostMessage> toBench(SplittableRandom random) {
        return new LossyLine<>(
                random,
                SerialEncoder::of,
                SerialDecoder.ofHost(4096),
                CommandReader::hostMessage,
                cbor -> Optional.empty());
    }

    static LossyLine<BenchMessage> toHost(SplittableRandom random) {
        return new LossyLine<>(
                random,
                SerialEncoder::of,
                SerialDecoder.ofBench(),
                MessageReader::benchMessage,
                MessageReader::denseSamples);
    }

    @Override
    public void weather(Weather changed) {
        weather = changed;
    }

    @Override
    public boolean free(long nowNanos) {
        return freeNanos <= nowNanos;
    }

    @Override
    public void send(M message, long nowNanos) {
        byte[] bytes = encode.apply(message);
        freeNanos = Math.max(freeNanos, nowNanos) + bytes.length * 1_000_000_000L / BYTES_PER_SECOND;
        // A cable that came off loses everything; one that hums spoils a byte here and there.
        byte[] spoilt = weather.down() ? new byte[0] : spoilt(bytes);
        long late = weather.delayMs() * 1_000_000L + random.nextLong(weather.jitterMs() * 1_000_000L / 4 + 1);
        lastDueNanos = Math.max(lastDueNanos, freeNanos + late);
        flying.add(new Piece(spoilt, lastDueNanos));
    }

    @Override
    public List<M> arrived(long nowNanos) {
        while (!flying.isEmpty() && flying.element().dueNanos <= nowNanos) {
            byte[] bytes = flying.remove().bytes;
            decoder.accept(bytes, 0, bytes.length, sink);
        }
        List<M> arrived = List.copyOf(found);
        found.clear();
        return arrived;
    }

    private byte[] spoilt(byte[] bytes) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        double share = weather.loss() * 0.01;
        for (byte one : bytes) {
            double drawn = share == 0 ? 1 : random.nextDouble();
            if (drawn < share / 2) {
                out.write(one ^ 1 << random.nextInt(8));
            } else if (drawn > share) {
                out.write(one);
            }
            if (random.nextDouble() < weather.doubling() * 0.001) {
                out.write(one);
            }
        }
        return out.toByteArray();
    }
}
