package dev.lapwing.transport.serial;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.CommandReader;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.Wire;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.PacedClock;
import dev.lapwing.transport.linked.TimedFault;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** A bench's end of a serial line: a pseudo-terminal that takes as long for a byte as a line of that baud rate. */
public final class ServedLine implements BenchCarrier {
    /** Start bit, eight data bits, stop bit. */
    private static final int BITS_A_BYTE = 10;

    private static final int READ_MS = 50;
    /** How often a line with faults, or with a backlog, is looked at. */
    private static final int SPOILT_MS = 1;
    /** The session of somebody who has nothing to do here. */
    private static final String STRANGER = "5712a9e0";

    private static final int READ_BYTES = 4096;

    private final PseudoTerminal terminal;
    private final Backlog backlog;
    private final int baud;
    private final CountDownLatch closed = new CountDownLatch(1);
    private final Optional<Spoilt> spoilt;
    private final Thread reader = new Thread(this::read, "lapwing served line");
    private final SerialDecoder decoder = SerialDecoder.ofHost(Wire.BENCH_BYTES_MAX);
    private Hearing hearing = Hearing.NONE;
    private volatile long bad;

    /** Both directions of a line with faults. */
    private record Spoilt(SpoiltWire in, SpoiltWire out, MonotonicClock clock) {}

    private ServedLine(PseudoTerminal terminal, int baud, Optional<Spoilt> spoilt) {
        this.terminal = terminal;
        this.backlog = new Backlog(terminal::write);
        this.spoilt = spoilt;
        this.baud = baud;
        reader.setDaemon(true);
    }

    /** @throws IOException where the system gives no pseudo-terminal */
    public static ServedLine open(int baud) throws IOException {
        return new ServedLine(PseudoTerminal.open(), baud, Optional.empty());
    }

    /**
     * A line with faults.
     *
     * @param faults those that are not of the line are left to the bench
     * @param seed   draws which bits and bytes they meet
     * @param speed  how much faster than real time the bench goes
     */
    public static ServedLine open(int baud, List<TimedFault> faults, long seed, double speed, MonotonicClock machine)
            throws IOException {
        List<TimedFault> ofTheLine = faults.stream()
                .filter(timed -> timed.fault() instanceof BenchFault.OnTheLine)
                .toList();
        if (ofTheLine.isEmpty()) {
            return open(baud);
        }
        SplittableRandom random = new SplittableRandom(seed);
        List<byte[]> host = List.of(
                SerialEncoder.of(new HostMessage.Hello(STRANGER, 1, Wire.LINK, "a stranger")),
                SerialEncoder.of(new HostMessage.Beat(STRANGER, Integer.MAX_VALUE, 0)));
        List<byte[]> bench = List.of(SerialEncoder.of(new BenchMessage.Safe(STRANGER, 1, 1, "host", "")));
        return new ServedLine(
                PseudoTerminal.open(),
                baud,
                Optional.of(new Spoilt(
                        new SpoiltWire(ofTheLine, host, random.split()),
                        new SpoiltWire(ofTheLine, bench, random.split()),
                        new PacedClock(machine, speed))));
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
    public void startedAnew(BenchCard card) {
        // A line shows nobody: who greets is told.
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
                int waitMs = spoilt.isPresent() || backlog.flush() ? SPOILT_MS : READ_MS;
                int count = terminal.read(bytes, waitMs);
                if (spoilt.isPresent()) {
                    move(spoilt.get(), bytes, Math.max(0, count));
                } else if (count > 0) {
                    heard(bytes, count);
                }
                if (count < 0) {
                    backlog.drop();
                    closed.await(waitMs, TimeUnit.MILLISECONDS);
                }
            }
        } catch (IOException | InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void heard(byte[] bytes, int count) {
        decoder.accept(bytes, 0, count, new Lines());
        bad = decoder.bad();
    }

    private void move(Spoilt wires, byte[] bytes, int count) {
        long now = wires.clock().nanos();
        if (count > 0) {
            wires.in().put(bytes, count, now);
        }
        byte[] in = wires.in().due(now);
        heard(in, in.length);
        byte[] out = wires.out().due(now);
        if (out.length > 0) {
            backlog.write(out);
        }
        backlog.flush();
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
        private int gone;

        Bytes(byte[] bytes) {
            this.bytes = bytes;
        }

        @Override
        public long lineNanos() {
            return ServedLine.this.lineNanos(bytes.length);
        }

        @Override
        public void goesOut(double share) {
            write((int) (share * bytes.length));
        }

        @Override
        public void send() {
            write(bytes.length);
        }

        /** A line has no flow control: what the other end does not take is lost, and missed by its number. */
        private void write(int until) {
            if (until <= gone) {
                return;
            }
            byte[] piece = Arrays.copyOfRange(bytes, gone, until);
            gone = until;
            if (spoilt.isPresent()) {
                spoilt.get().out().put(piece, piece.length, spoilt.get().clock().nanos());
            } else {
                backlog.write(piece);
            }
        }
    }
}
