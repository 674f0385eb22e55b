package dev.lapwing.transport.serial;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.CommandReader;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.Wire;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import java.util.function.Function;

/** A pseudo-terminal into which bytes are poured as quickly as the other side takes them. For one thread. */
public final class FloodedLine implements AutoCloseable {
    private static final long FULL_NANOS = 20_000;
    private static final int CHUNK = 4_096;

    private final PseudoTerminal terminal;
    private final SerialDecoder decoder = SerialDecoder.ofHost(Wire.BENCH_BYTES_MAX);
    private final Deque<byte[]> answers = new ArrayDeque<>();
    private final byte[] in = new byte[CHUNK];

    private FloodedLine(PseudoTerminal terminal) {
        this.terminal = terminal;
    }

    public static FloodedLine open() throws IOException {
        return new FloodedLine(PseudoTerminal.open());
    }

    public String device() {
        return terminal.device();
    }

    /** Reads commands until that is so, waiting a millisecond at a time, and answers them. */
    public void answerUntil(BooleanSupplier enough, Function<HostMessage, Optional<BenchMessage>> bench)
            throws IOException {
        while (!enough.getAsBoolean()) {
            answer(1, bench);
        }
    }

    /** Reads commands and answers them. */
    public void answer(int waitMs, Function<HostMessage, Optional<BenchMessage>> bench) throws IOException {
        int count = terminal.read(in, waitMs);
        if (count > 0) {
            decoder.accept(in, 0, count, new SerialDecoder.Sink() {
                @Override
                public boolean line(byte[] json) {
                    Optional<HostMessage> message = CommandReader.hostMessage(json);
                    message.flatMap(bench).map(SerialEncoder::of).ifPresent(answers::add);
                    return message.isPresent();
                }

                @Override
                public boolean dense(byte[] cbor) {
                    return false;
                }
            });
        }
        while (!answers.isEmpty()) {
            pour(answers.remove());
        }
    }

    /** Writes all of it, waiting where the line is full. */
    public void pour(byte[] bytes) {
        int from = 0;
        while (from < bytes.length) {
            int taken = terminal.write(from == 0 ? bytes : Arrays.copyOfRange(bytes, from, bytes.length));
            if (taken == 0) {
                LockSupport.parkNanos(FULL_NANOS);
            }
            from += taken;
        }
    }

    @Override
    public void close() {
        terminal.close();
    }
}
