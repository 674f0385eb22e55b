package dev.lapwing.transport.serial;

import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.BenchFault.BitErrors;
import dev.lapwing.transport.linked.BenchFault.Doubled;
import dev.lapwing.transport.linked.BenchFault.Dropped;
import dev.lapwing.transport.linked.BenchFault.Stranger;
import dev.lapwing.transport.linked.BenchFault.Unplugged;
import dev.lapwing.transport.linked.BenchFault.WrongBaud;
import dev.lapwing.transport.linked.TimedFault;
import java.io.ByteArrayOutputStream;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.SplittableRandom;

/**
 * One direction of a line with faults: what is put in comes out later, other, or not at all. Times are ns since the
 * bench was switched on, in bench time, and never fall. For one thread at a time.
 */
final class SpoiltWire {
    /** A stranger is silent for so long between two of its lines at least ... */
    private static final long SILENT_NANOS_MIN = 20_000_000L;
    /** ... and so long at the most: a bench describes itself in 50 ms, which then gets through. */
    private static final long SILENT_NANOS_MAX = 400_000_000L;

    private static final int NOISE_BYTES_MAX = 40;

    private final List<TimedFault> faults;
    private final List<byte[]> strangersLines;
    private final SplittableRandom random;
    private final Deque<Piece> waiting = new ArrayDeque<>();
    private long lastDueNanos;
    private long strangerNanos;

    private record Piece(byte[] bytes, long dueNanos) {}

    /** @param strangersLines what somebody else would say here, framed */
    SpoiltWire(List<TimedFault> faults, List<byte[]> strangersLines, SplittableRandom random) {
        this.faults = List.copyOf(faults);
        this.strangersLines = List.copyOf(strangersLines);
        this.random = random;
    }

    synchronized void put(byte[] bytes, int count, long nowNanos) {
        byte[] piece = Arrays.copyOf(bytes, count);
        long due = nowNanos;
        for (TimedFault timed : faults) {
            if (timed.struck(nowNanos)) {
                due = Math.max(due, timed.dueNanos(nowNanos, random));
                piece = spoilt(timed.fault(), nowNanos - timed.atNanos(), piece);
            }
        }
        lastDueNanos = Math.max(lastDueNanos, due);
        waiting.add(new Piece(piece, lastDueNanos));
    }

    private byte[] spoilt(BenchFault fault, long since, byte[] bytes) {
        if (fault instanceof BitErrors errors) {
            return turned(bytes, errors.rate());
        } else if (fault instanceof Dropped dropped) {
            return repeated(bytes, dropped.rate(), 0);
        } else if (fault instanceof Doubled doubled) {
            return repeated(bytes, doubled.rate(), 2);
        } else if (fault instanceof Unplugged unplugged && since < unplugged.nanos()) {
            return new byte[0];
        } else if (fault instanceof WrongBaud wrong && since < wrong.nanos()) {
            return noise(random.nextInt(bytes.length + 1));
        }
        return bytes;
    }

    private byte[] turned(byte[] bytes, double rate) {
        byte[] turned = bytes.clone();
        for (int bit = 0; bit < 8 * turned.length; bit++) {
            if (random.nextDouble() < rate) {
                turned[bit / 8] ^= (byte) (1 << bit % 8);
            }
        }
        return turned;
    }

    private byte[] repeated(byte[] bytes, double rate, int times) {
        ByteArrayOutputStream out = new ByteArrayOutputStream(bytes.length);
        for (byte b : bytes) {
            int copies = random.nextDouble() < rate ? times : 1;
            for (int i = 0; i < copies; i++) {
                out.write(b);
            }
        }
        return out.toByteArray();
    }

    private byte[] noise(int count) {
        byte[] noise = new byte[count];
        random.nextBytes(noise);
        return noise;
    }

    /** Everything that comes out by now. */
    synchronized byte[] due(long nowNanos) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        while (!waiting.isEmpty() && waiting.peek().dueNanos <= nowNanos) {
            out.writeBytes(waiting.remove().bytes);
        }
        if (nowNanos >= strangerNanos && strangerTalks(nowNanos)) {
            strangerNanos = nowNanos + random.nextLong(SILENT_NANOS_MIN, SILENT_NANOS_MAX);
            int said = random.nextInt(strangersLines.size() + 1);
            out.writeBytes(
                    said < strangersLines.size() ? strangersLines.get(said) : noise(random.nextInt(NOISE_BYTES_MAX)));
        }
        return out.toByteArray();
    }

    private boolean strangerTalks(long nowNanos) {
        return faults.stream()
                .anyMatch(timed -> timed.fault() instanceof Stranger stranger
                        && nowNanos >= timed.atNanos()
                        && nowNanos < timed.atNanos() + stranger.nanos());
    }
}
