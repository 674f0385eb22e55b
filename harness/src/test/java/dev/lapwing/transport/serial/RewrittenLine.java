package dev.lapwing.transport.serial;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fazecast.jSerialComm.SerialPort;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;

/**
 * A device behind which another bench stands, whose lines are rewritten on their way to the host: so one firmware
 * speaks like many. What the host says passes as it is.
 */
public final class RewrittenLine implements AutoCloseable {
    private static final int WAIT_MS = 5;
    private static final int READ_MS = 100;

    private final PseudoTerminal host;
    private final SerialPort bench;
    private final Function<ObjectNode, List<Later>> rewrite;
    private final ObjectMapper json = new ObjectMapper();
    private final ScheduledThreadPoolExecutor sender = new ScheduledThreadPoolExecutor(1);
    private final Map<String, Queue<byte[]>> queues = new HashMap<>();
    private final Thread there = new Thread(this::toBench, "host to bench");
    private final Thread back = new Thread(this::toHost, "bench to host");
    private volatile boolean closed;

    /**
     * What goes to the host, and how much later than it would have.
     *
     * @param queue messages of one queue keep their order
     */
    public record Later(ObjectNode message, String queue, long delayMs) {}

    /** @param rewrite what goes to the host instead of a message of the bench, for one thread */
    public RewrittenLine(String device, int baud, Function<ObjectNode, List<Later>> rewrite) throws IOException {
        this.rewrite = rewrite;
        host = PseudoTerminal.open();
        bench = SerialPort.getCommPort(device);
        bench.setComPortParameters(baud, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        bench.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MS, 0);
        if (!bench.openPort()) {
            throw new IOException(device + " cannot be opened");
        }
        there.setDaemon(true);
        back.setDaemon(true);
        there.start();
        back.start();
    }

    /** What a host opens. */
    public String device() {
        return host.device();
    }

    private void toBench() {
        byte[] bytes = new byte[4096];
        try {
            while (!closed) {
                int count = host.read(bytes, WAIT_MS);
                if (count > 0) {
                    bench.writeBytes(bytes, count);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void toHost() {
        SerialDecoder decoder = SerialDecoder.ofBench();
        byte[] bytes = new byte[4096];
        for (int count = 0; count >= 0 && !closed; count = bench.readBytes(bytes, bytes.length)) {
            decoder.accept(bytes, 0, count, new Lines());
        }
    }

    private void say(byte[] line) {
        for (int from = 0; from < line.length && !closed; ) {
            from += host.write(Arrays.copyOfRange(line, from, line.length));
        }
    }

    @Override
    public void close() {
        closed = true;
        sender.shutdownNow();
        bench.closePort();
        try {
            there.join(1_000);
            back.join(1_000);
            sender.awaitTermination(1, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        host.close();
    }

    private final class Lines implements SerialDecoder.Sink {
        @Override
        public boolean line(byte[] text) {
            try {
                for (Later later : rewrite.apply((ObjectNode) json.readTree(text))) {
                    byte[] line = SerialEncoder.line(json.writeValueAsBytes(later.message));
                    Queue<byte[]> queue = queues.computeIfAbsent(later.queue, any -> new ConcurrentLinkedQueue<>());
                    queue.add(line);
                    sender.schedule(() -> say(queue.remove()), later.delayMs, TimeUnit.MILLISECONDS);
                }
                return true;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        @Override
        public boolean dense(byte[] cbor) {
            throw new AssertionError("a bench that offers no dense samples was asked for them");
        }
    }
}
