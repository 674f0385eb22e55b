package dev.lapwing.transport;

import com.fazecast.jSerialComm.SerialPort;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.run.Progress;
import dev.lapwing.signal.Trace;
import dev.lapwing.transport.serial.FloodedLine;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicInteger;

/** How much of a serial line the harness takes, beside a bare read loop. */
final class SerialIngest {
    private static final int BITS_A_BYTE = 10;
    private static final int READ_BYTES = 4_096;
    private static final int READ_MS = 200;
    /** How far the flood may be ahead of what the runner's thread has taken, in messages. */
    private static final int AHEAD_MAX = 2_000;

    private SerialIngest() {}

    /** A whole run at a line of that baud rate, its record on disk: one line of text. */
    static String paced(String name, int baud, long everyUs, int seconds, Path folder) throws Exception {
        Link link = Link.serial(baud, new SquareWave(DecisionDelay.HALF_US));
        var file = Pressures.file(link.choice(), everyUs);
        PlanStep wait = new PlanStep.Wait(seconds * 1_000_000L, "wait", "benchmark:1:1");
        RunRecord record = HostRun.of(Pressures.plan(file, List.of(wait)), folder, Progress.NONE);
        link.close();
        List<StampedCarrier.Sent> sent = link.carrier().sent();
        long bytes = 0;
        for (StampedCarrier.Sent one : sent) {
            bytes += SerialEncoder.of(one.samples()).length;
        }
        double passed = (sent.get(sent.size() - 1).atNanos() - sent.get(0).atNanos()) * 1e-9;
        long lost =
                record.course().lost().values().stream().mapToLong(List::size).sum();
        return String.format(
                Locale.ROOT,
                "%-24s %5.1f %% of the line's %d bytes/s, %d samples in the record, %d missing between, %d losses told",
                name,
                100.0 * bytes / passed / (baud / BITS_A_BYTE),
                baud / BITS_A_BYTE,
                record.samples(),
                missing(record, everyUs),
                lost);
    }

    /** Samples that are not in the record, between its first and its last. */
    private static long missing(RunRecord record, long everyUs) {
        Trace trace =
                record.recording().sampled(Pressures.first()).orElseThrow().trace();
        return (trace.timeUs(trace.size() - 1) - trace.timeUs(0)) / everyUs + 1 - trace.size();
    }

    /** A bare read loop and the harness's reading, decoding and telling, as quick as each can: lines of text. */
    static String unpaced(int messages) throws Exception {
        double[] bare = new double[3];
        double[] ours = new double[3];
        for (int i = 0; i < bare.length; i++) {
            bare[i] = bare(messages);
            ours[i] = ours(messages);
        }
        double best = best(bare);
        double own = best(ours);
        return String.format(
                Locale.ROOT,
                "bare jSerialComm read loop %.1f MB/s; the harness %.1f MB/s (%.2f million samples/s), %.0f %% of it;"
                        + " a line of 921600 baud carries 0.092 MB/s",
                best,
                own,
                own * 1e6 / BYTES / 1e6 * Flood.ROWS * Pressures.CHANNELS,
                100 * own / best);
    }

    private static double best(double[] rates) {
        return Arrays.stream(rates).max().orElseThrow();
    }

    private static final int BYTES = SerialEncoder.of(new Flood().samples(1)).length;

    private static double bare(int messages) throws Exception {
        try (FloodedLine line = FloodedLine.open()) {
            byte[][] bytes = encoded(new Flood(), messages);
            long total = Arrays.stream(bytes).mapToLong(one -> one.length).sum();
            SerialPort port = SerialPort.getCommPort(line.device());
            port.setComPortParameters(LinkChoice.BAUD_DEFAULT, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
            port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
            port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MS, 0);
            if (!port.openPort()) {
                throw new IOException(line.device());
            }
            CompletableFuture<Void> pouring = CompletableFuture.runAsync(() -> {
                for (byte[] one : bytes) {
                    line.pour(one);
                }
            });
            byte[] into = new byte[READ_BYTES];
            long read = 0;
            long first = 0;
            while (read < total) {
                int count = port.readBytes(into, into.length);
                first = first == 0 ? System.nanoTime() : first;
                read += count;
            }
            double seconds = (System.nanoTime() - first) * 1e-9;
            pouring.join();
            port.closePort();
            return total / seconds * 1e-6;
        }
    }

    private static byte[][] encoded(Flood flood, int messages) {
        byte[][] bytes = new byte[messages][];
        for (int i = 0; i < messages; i++) {
            bytes[i] = SerialEncoder.of(flood.samples(i + 1));
        }
        return bytes;
    }

    private static double ours(int messages) throws Exception {
        try (FloodedLine line = FloodedLine.open()) {
            Flood flood = new Flood();
            AtomicInteger taken = new AtomicInteger();
            LinkChoice choice = new LinkChoice.Serial(line.device(), LinkChoice.BAUD_DEFAULT, 300, 1);
            CompletableFuture<Void> bench = CompletableFuture.runAsync(() -> flood(line, flood, messages, taken));
            double seconds = new Taken(messages, taken).seconds(Pressures.file(choice, 200));
            bench.join();
            return (double) BYTES * messages / seconds * 1e-6;
        }
    }

    private static void flood(FloodedLine line, Flood flood, int messages, AtomicInteger taken) {
        try {
            line.answerUntil(flood::ordered, flood::answer);
            line.pour(SerialEncoder.of(Flood.state()));
            byte[][] bytes = new byte[messages][];
            for (int i = 0; i < messages; i++) {
                bytes[i] = SerialEncoder.of(flood.samples(i + 1));
                if (i % 100 == 0) {
                    line.answer(0, flood::answer);
                }
            }
            for (int i = 0; i < messages; i++) {
                line.pour(bytes[i]);
                while (i - taken.get() > AHEAD_MAX) {
                    line.answer(1, flood::answer);
                }
                if (i % 100 == 0) {
                    line.answer(0, flood::answer);
                }
            }
            boolean[] over = {false};
            line.answerUntil(() -> over[0], message -> {
                over[0] = message instanceof HostMessage.Safe;
                return flood.answer(message);
            });
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
