package dev.lapwing.transport.modbus;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.io.ModbusSerialTransport;
import com.ghgande.j2mod.modbus.msg.ExceptionResponse;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.net.AbstractSerialConnection;
import com.ghgande.j2mod.modbus.net.SerialConnection;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.LineTiming;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.RegisterBlock;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.device.KeptSignals;
import dev.lapwing.transport.device.SerialDevice;
import java.io.IOException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * A master's end of a Modbus RTU line. One request at a time, each answered or failed before the next; nothing is
 * repeated here. For one thread at a time.
 *
 * <p>Modbus answers carry no number. After a time-out or a spoilt answer the module may still answer, and that answer
 * looks like one to the next request. So the next thing that such a module is asked is what only that question can be
 * answered by: modules answer in the order in which they are asked, and with its answer every older one is over.
 */
final class ModbusLine implements AutoCloseable {
    /** The serial library counts in such steps; an answer that is there is taken at once. */
    private static final int ANSWER_MS_STEP = 100;

    private static final int ANSWER_MS_MIN = 200;
    /** Looks for silence before a line that never falls silent is given up. */
    private static final int LOOKS_MAX = 200;

    private final AbstractSerialConnection connection;
    private final ModbusSerialTransport transport;
    private final MonotonicClock clock;
    private final long answerNanos;
    private final long silenceNanos;
    /** Never falls: waiting for it is waiting for a time. */
    private final CountDownLatch never = new CountDownLatch(1);
    /** Modules that may still answer something older, and what that was about. */
    private final Map<Integer, RegisterBlock> doubtful = new HashMap<>();

    /** Those of them that may still answer a look back at their outputs. */
    private final Set<Integer> lookedBack = new HashSet<>();

    private long quietSinceNanos;

    private ModbusLine(AbstractSerialConnection connection, long answerMs, int baud, MonotonicClock clock) {
        this.connection = connection;
        this.transport = (ModbusSerialTransport) connection.getModbusTransport();
        this.clock = clock;
        this.answerNanos = answerMs * 1_000_000;
        this.silenceNanos = (long) Math.ceil(new LineTiming(baud).silenceUs() * 1_000);
        this.quietSinceNanos = clock.nanos();
    }

    static ModbusLine open(LinkChoice.Modbus choice, MonotonicClock clock) throws BenchFailure {
        KeptSignals signals = KeptSignals.now();
        SerialParameters line = new SerialParameters();
        line.setPortName(choice.device());
        line.setBaudRate(choice.baud());
        line.setDatabits(8);
        line.setParity(
                switch (choice.parity()) {
                    case NONE -> AbstractSerialConnection.NO_PARITY;
                    case ODD -> AbstractSerialConnection.ODD_PARITY;
                    case EVEN -> AbstractSerialConnection.EVEN_PARITY;
                });
        line.setStopbits(
                choice.parity() == LinkChoice.Parity.NONE
                        ? AbstractSerialConnection.TWO_STOP_BITS
                        : AbstractSerialConnection.ONE_STOP_BIT);
        line.setEncoding(Modbus.SERIAL_ENCODING_RTU);
        line.setOpenDelay(0);
        AbstractSerialConnection connection = new SerialConnection(line);
        int answerMs = answerMs(choice.roundTripUs());
        connection.setTimeout(answerMs);
        try {
            connection.open();
        } catch (IOException | RuntimeException e) {
            throw new BenchFailure(whyNot(choice), e);
        } finally {
            signals.restore();
        }
        return new ModbusLine(connection, answerMs, choice.baud(), clock);
    }

    private static String whyNot(LinkChoice.Modbus choice) {
        SerialDevice device = SerialDevice.at(choice.device());
        return choice.parity() != LinkChoice.Parity.NONE && device.pseudoTerminal()
                ? "the serial device '" + choice.device() + "' cannot be opened; it is one without hardware, and such"
                        + " know no parity: write 'parity: none' in the bench file to try it"
                : device.whyNot();
    }

    /** An answer that comes later than readings may rest on is not waited for. */
    private static int answerMs(long roundTripUs) {
        int steps = (int) Math.ceil(roundTripUs / (1e3 * ANSWER_MS_STEP));
        return Math.max(ANSWER_MS_MIN, steps * ANSWER_MS_STEP);
    }

    /** What stands in a block of discrete inputs, as 0 and 1, or of input registers, as 0 to 65535. */
    int[] read(RegisterBlock block) throws IOException {
        settle(block.module());
        return Requests.values(block, answer(block, Requests.read(block)));
    }

    /** How a block of coils is, as 0 and 1, or of holding registers, as 0 to 65535. */
    int[] readBack(RegisterBlock block) throws IOException {
        settle(block.module());
        try {
            return Requests.values(block, answer(block, Requests.readBack(block)));
        } catch (IOException e) {
            if (doubtful.containsKey(block.module())) {
                lookedBack.add(block.module());
            }
            throw e;
        }
    }

    /** Lets some time pass, in µs. */
    void pause(long us) throws IOException {
        await(us * 1_000);
    }

    /**
     * Drives a block of coils, by 0 and 1, or of holding registers, of whose values the lower 16 bits count. Returns
     * when the module has said that it did.
     */
    void write(RegisterBlock block, int[] values) throws IOException {
        ModbusRequest request = Requests.write(block, values);
        if (doubtful.containsKey(block.module())) {
            // Outputs come first, and driving them twice does no harm; only the second answer is believed.
            send(block, request);
            hearOut(block);
            settle(block.module());
        }
        answer(block, request);
    }

    /** Gives an answer that says nothing the time to be over. */
    private void hearOut(RegisterBlock asked) {
        try {
            next(asked);
        } catch (IOException e) {
            doubtful.put(asked.module(), asked);
        }
    }

    /** Waits until nothing older can be answered any more by that module. */
    private void settle(int module) throws IOException {
        RegisterBlock about = doubtful.get(module);
        if (about == null) {
            return;
        }
        awaitSilence();
        ModbusRequest marker = Requests.marker(about, lookedBack.contains(module));
        send(about, marker);
        long untilNanos = clock.nanos() + answerNanos;
        while (clock.nanos() < untilNanos) {
            ModbusResponse came = next(about);
            if (Requests.answers(came, marker) || Requests.refuses(came, marker)) {
                doubtful.remove(module);
                lookedBack.remove(module);
                return;
            }
            // Anything else is what was still to come.
        }
        throw noGoodAnswer(about, null);
    }

    private ModbusResponse answer(RegisterBlock block, ModbusRequest request) throws IOException {
        send(block, request);
        long untilNanos = clock.nanos() + answerNanos;
        while (clock.nanos() < untilNanos) {
            ModbusResponse came = next(block);
            if (Requests.refuses(came, request)) {
                throw new IOException("module " + block.module() + " refused its "
                        + block.table().text() + "s from " + block.first() + " to " + block.last() + " (exception "
                        + ((ExceptionResponse) came).getExceptionCode() + "); look at the bench file");
            }
            if (Requests.answers(came, request)) {
                return came;
            }
            if (came.getUnitID() == block.module()) {
                doubtful.put(block.module(), block);
                throw new IOException("module " + block.module() + " answered something else");
            }
            // A module that was given up answers at last; this one is still to be heard.
        }
        throw noGoodAnswer(block, null);
    }

    private void send(RegisterBlock block, ModbusRequest request) throws IOException {
        await(silenceNanos - (clock.nanos() - quietSinceNanos));
        if (!connection.isOpen()) {
            // The library would try for seconds to open it again.
            throw new IOException("the serial device is gone");
        }
        try {
            transport.writeRequest(request);
        } catch (ModbusException | RuntimeException e) {
            doubtful.put(block.module(), block);
            throw new IOException("the line takes nothing", e);
        } finally {
            quietSinceNanos = clock.nanos();
        }
    }

    /** The next frame that is whole, of whichever module. */
    private ModbusResponse next(RegisterBlock asked) throws IOException {
        try {
            return transport.readResponse();
        } catch (ModbusException | RuntimeException e) {
            throw noGoodAnswer(asked, e);
        } finally {
            quietSinceNanos = clock.nanos();
        }
    }

    private IOException noGoodAnswer(RegisterBlock asked, @Nullable Exception cause) {
        doubtful.put(asked.module(), asked);
        return new IOException("module " + asked.module() + " gave no good answer", cause);
    }

    /** Takes and drops what comes until nothing has come for as long as ends a frame. */
    private void awaitSilence() throws IOException {
        for (int i = 0; i < LOOKS_MAX; i++) {
            int there = connection.bytesAvailable();
            if (there <= 0 && clock.nanos() - quietSinceNanos >= silenceNanos) {
                return;
            }
            if (there > 0) {
                connection.readBytes(new byte[there], there);
                quietSinceNanos = clock.nanos();
            }
            await(silenceNanos - (clock.nanos() - quietSinceNanos));
        }
        throw new IOException("the line does not fall silent");
    }

    private void await(long nanos) throws IOException {
        if (nanos > 0) {
            try {
                never.await(nanos, TimeUnit.NANOSECONDS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new IOException("stopped", e);
            }
        }
    }

    @Override
    public void close() {
        connection.close();
    }
}
