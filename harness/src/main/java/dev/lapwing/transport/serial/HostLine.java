package dev.lapwing.transport.serial;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.MessageReader;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
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

    private final String device;
    private final SerialPort port;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final Thread reader = new Thread(this::read, "lapwing serial reader");
    private Hearing hearing = new Deaf();

    private HostLine(String device, SerialPort port) {
        this.device = device;
        this.port = port;
        reader.setDaemon(true);
    }

    static HostLine open(String device, int baud) throws BenchFailure {
        SerialPort port;
        try {
            // Looked up anew each time: a link to a device is followed when the port is made, not when it is opened.
            port = SerialPort.getCommPort(device);
        } catch (SerialPortInvalidPortException e) {
            throw new BenchFailure("there is no serial device '" + device + "'; look at the cable and the name", e);
        }
        port.setComPortParameters(baud, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MS, 0);
        if (!port.openPort()) {
            throw new BenchFailure("the serial device '" + device
                    + "' cannot be opened; another program has it, or this user may not use it");
        }
        return new HostLine(device, port);
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
        write(SerialEncoder.opened(message));
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
        int count = port.readBytes(bytes, bytes.length);
        while (count >= 0 && !closed.get()) {
            decoder.accept(bytes, 0, count, sink);
            count = port.readBytes(bytes, bytes.length);
        }
        hearing.ended("'" + device + "' went away");
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

    private static final class Deaf implements Hearing {
        @Override
        public void came(BenchMessage message) {}

        @Override
        public void ended(String why) {}
    }
}
