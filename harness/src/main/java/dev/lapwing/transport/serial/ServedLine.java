package dev.lapwing.transport.serial;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.CommandReader;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.Wire;
import dev.lapwing.transport.linked.BenchCarrier;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** A bench's end of a serial line: a pseudo-terminal that takes as long for a byte as a line of that baud rate. */
public final class ServedLine implements BenchCarrier {
    /** Start bit, eight data bits, stop bit. */
    private static final int BITS_A_BYTE = 10;

    private static final int READ_MS = 50;
    private static final int READ_BYTES = 4096;

    private final PseudoTerminal terminal;
    private final int baud;
    private final CountDownLatch closed = new CountDownLatch(1);
    private final Thread reader = new Thread(this::read, "lapwing served line");
    private final SerialDecoder decoder = SerialDecoder.ofHost(Wire.BENCH_BYTES_MAX);
    private Hearing hearing = (message, lineNanos) -> {};
    private volatile long bad;

    private ServedLine(PseudoTerminal terminal, int baud) {
        this.terminal = terminal;
        this.baud = baud;
        reader.setDaemon(true);
    }

    /** @throws IOException where the system gives no pseudo-terminal */
    public static ServedLine open(int baud) throws IOException {
        return new ServedLine(PseudoTerminal.open(), baud);
    }

    /** What a host opens, such as {@code /dev/pts/3}. */
    public String device() {
        return terminal.device();
    }

    @Override
    public void listen(Hearing to) {
        hearing = to;
        reader.start();
    }

    @Override
    public Parcel parcel(BenchMessage message) {
        return new Bytes(SerialEncoder.of(message));
    }

    @Override
    public long bytesPerSecond() {
        return baud / BITS_A_BYTE;
    }

    @Override
    public long badPieces() {
        return bad;
    }

    private long lineNanos(int bytes) {
        return bytes * BITS_A_BYTE * 1_000_000_000L / baud;
    }

    private void read() {
        byte[] bytes = new byte[READ_BYTES];
        try {
            while (closed.getCount() > 0) {
                int count = terminal.read(bytes, READ_MS);
                if (count > 0) {
                    decoder.accept(bytes, 0, count, new Lines());
                    bad = decoder.bad();
                } else if (count < 0) {
                    closed.await(READ_MS, TimeUnit.MILLISECONDS);
                }
            }
        } catch (IOException | InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        closed.countDown();
        try {
            reader.join(1_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        terminal.close();
    }

    private final class Lines implements SerialDecoder.Sink {
        @Override
        public boolean line(byte[] json) {
            Optional<HostMessage> message = CommandReader.hostMessage(json);
            message.ifPresent(found -> hearing.came(found, lineNanos(json.length + Wire.LINE_EXTRA_BYTES)));
            return message.isPresent();
        }

        @Override
        public boolean dense(byte[] cbor) {
            return false;
        }
    }

    private final class Bytes implements Parcel {
        private final byte[] bytes;

        Bytes(byte[] bytes) {
            this.bytes = bytes;
        }

        @Override
        public long lineNanos() {
            return ServedLine.this.lineNanos(bytes.length);
        }

        @Override
        public void send() {
            // A line has no flow control: what the other end does not take is lost, and missed by its number.
            terminal.write(bytes);
        }
    }
}
