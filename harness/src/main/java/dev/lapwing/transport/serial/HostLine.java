package dev.lapwing.transport.serial;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.MessageReader;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.Wire;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.device.KeptSignals;
import dev.lapwing.transport.device.SerialDevice;
import dev.lapwing.transport.linked.HostCarrier;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;

/**
 * A host's end of a serial line. A device that goes away shows by what reads and writes return, never by what the port
 * says of itself; a write that blocks is freed by closing the port from another thread.
 */
final class HostLine implements HostCarrier {
    /** The library counts in steps of 100 ms; bytes that are there are returned at once. */
    private static final int READ_MS = 200;

    private static final int READ_BYTES = 4096;
    /** Start bit, eight data bits, stop bit. */
    private static final long BITS_A_BYTE = 10;
    /** A line on which nothing has come for so long after a hello was wholly there is quiet, in ns. */
    private static final long QUIET_NANOS = 150_000_000L;
    /** A hello that is lost among what comes is said again so long after the longest answer at the latest, in ns. */
    private static final long HELLO_NANOS_MAX = 5_000_000_000L;

    private final String device;
    private final int baud;
    private final SerialPort port;
    private final MonotonicClock clock;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final Thread reader = new Thread(this::read, "lapwing serial reader");
    private Hearing hearing = Hearing.NONE;
    private volatile long heardBytes;
    private volatile long heardNanos;
    private Optional<Long> helloNanos = Optional.empty();

    private HostLine(String device, int baud, SerialPort port, MonotonicClock clock) {
        this.heardNanos = clock.nanos() - QUIET_NANOS;
        this.device = device;
        this.baud = baud;
        this.port = port;
        this.clock = clock;
        reader.setDaemon(true);
    }

    static HostLine open(String device, int baud, MonotonicClock clock) throws BenchFailure {
        KeptSignals signals = KeptSignals.now();
        try {
            return opened(device, baud, clock);
        } finally {
            signals.restore();
        }
    }

    private static HostLine opened(String device, int baud, MonotonicClock clock) throws BenchFailure {
        SerialPort port;
        try {
            // Looked up anew each time: a link to a device is followed when the port is made, not when it is opened.
            port = SerialPort.getCommPort(device);
        } catch (SerialPortInvalidPortException e) {
            throw new BenchFailure(SerialDevice.at(device).whyNot(), e);
        }
        port.setComPortParameters(baud, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MS, 0);
        if (!port.openPort()) {
            throw new BenchFailure(SerialDevice.at(device).whyNot());
        }
        return new HostLine(device, baud, port, clock);
    }

    @Override
    public void listen(Hearing to) {
        hearing = to;
        try {
            write(new byte[] {SerialEncoder.OPENING});
        } catch (IOException e) {
            to.ended(e.getMessage());
        }
        reader.start();
    }

    @Override
    public void send(HostMessage message) throws IOException {
        byte[] bytes = SerialEncoder.opened(message);
        if (!(message instanceof HostMessage.Hello) || helloIsDue(bytes.length)) {
            write(bytes);
        }
    }

    @Override
    public long lineNanos(int bytes) {
        return bytes * BITS_A_BYTE * 1_000_000_000L / baud;
    }

    /**
     * A greeting is long, and each hello gets one: on a slow line those of needless repeats would fill it for seconds.
     * So none is repeated while something comes in, which may be the answer, nor before the one that was said can have
     * been answered.
     */
    private boolean helloIsDue(int bytes) {
        long now = clock.nanos();
        long sinceNanos = helloNanos.map(said -> now - said).orElse(Long.MAX_VALUE);
        boolean quiet = now - heardNanos >= QUIET_NANOS && sinceNanos >= QUIET_NANOS + lineNanos(bytes);
        boolean due = quiet || sinceNanos >= HELLO_NANOS_MAX + lineNanos(Wire.BENCH_BYTES_MAX);
        helloNanos = due ? Optional.of(now) : helloNanos;
        return due;
    }

    private void write(byte[] bytes) throws IOException {
        int from = 0;
        while (from < bytes.length) {
            int written = port.writeBytes(bytes, bytes.length - from, from);
            if (written <= 0) {
                throw new IOException("'" + device + "' takes nothing any more; it is gone, or was closed");
            }
            from += written;
        }
    }

    private void read() {
        SerialDecoder decoder = SerialDecoder.ofBench();
        SerialDecoder.Sink sink = new Sink();
        byte[] bytes = new byte[READ_BYTES];
        long heard = 0;
        int count = port.readBytes(bytes, bytes.length);
        while (count >= 0 && !closed.get()) {
            heard += count;
            heardBytes = heard;
            heardNanos = count > 0 ? clock.nanos() : heardNanos;
            decoder.accept(bytes, 0, count, sink);
            count = port.readBytes(bytes, bytes.length);
        }
        hearing.ended("'" + device + "' went away");
    }

    @Override
    public String whyNobody() {
        return heardBytes == 0
                ? "nobody answers at '" + device + "', and nothing comes from there; look at the power, the cable and"
                        + " the name of the device"
                : "nobody answers at '" + device + "', but " + heardBytes
                        + " bytes came that are no message of a bench;" + " look at the baud rate (here " + baud
                        + "), and whether what is there speaks the bench link";
    }

    @Override
    public void close() {
        if (closed.compareAndSet(false, true)) {
            port.closePort();
        }
        try {
            if (Thread.currentThread() != reader) {
                reader.join(1_000);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private final class Sink implements SerialDecoder.Sink {
        @Override
        public boolean line(byte[] json) {
            return told(MessageReader.benchMessage(json));
        }

        @Override
        public boolean dense(byte[] cbor) {
            return told(MessageReader.denseSamples(cbor));
        }

        private boolean told(Optional<BenchMessage> message) {
            message.ifPresent(hearing::came);
            return message.isPresent();
        }
    }
}
