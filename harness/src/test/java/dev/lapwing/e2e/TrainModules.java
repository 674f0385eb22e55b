package dev.lapwing.e2e;

import com.digitalpetri.modbus.exceptions.UnknownUnitIdException;
import com.digitalpetri.modbus.pdu.ReadCoilsRequest;
import com.digitalpetri.modbus.pdu.ReadCoilsResponse;
import com.digitalpetri.modbus.pdu.ReadDiscreteInputsRequest;
import com.digitalpetri.modbus.pdu.ReadDiscreteInputsResponse;
import com.digitalpetri.modbus.pdu.ReadHoldingRegistersRequest;
import com.digitalpetri.modbus.pdu.ReadHoldingRegistersResponse;
import com.digitalpetri.modbus.pdu.ReadInputRegistersRequest;
import com.digitalpetri.modbus.pdu.ReadInputRegistersResponse;
import com.digitalpetri.modbus.pdu.WriteMultipleCoilsRequest;
import com.digitalpetri.modbus.pdu.WriteMultipleCoilsResponse;
import com.digitalpetri.modbus.pdu.WriteSingleCoilRequest;
import com.digitalpetri.modbus.pdu.WriteSingleCoilResponse;
import com.digitalpetri.modbus.pdu.WriteSingleRegisterRequest;
import com.digitalpetri.modbus.pdu.WriteSingleRegisterResponse;
import com.digitalpetri.modbus.serial.server.SerialPortServerTransport;
import com.digitalpetri.modbus.server.ModbusRequestContext;
import com.digitalpetri.modbus.server.ModbusRtuServer;
import com.digitalpetri.modbus.server.ModbusServerConfig;
import com.digitalpetri.modbus.server.ModbusServices;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.Register.Table;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.serial.TerminalPair;
import java.util.Comparator;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Queue;

/**
 * The simulated train behind Modbus modules, in real time, at the other end of a line that takes its time: the slave's
 * side is another library's than the harness's.
 */
final class TrainModules implements AutoCloseable {
    /** Eight data bits, start, parity and stop. */
    private static final long BITS_A_BYTE = 11;

    private final LinkChoice.Modbus link;
    private final AppliedCounts terminals;
    private final MonotonicClock clock = MonotonicClock.system();
    private final long beganNanos = clock.nanos();
    private final Queue<Following> following = new PriorityQueue<>(Comparator.comparingLong(Following::atUs));
    private final TerminalPair pair;
    private final ModbusRtuServer server;

    /** A contact that is on its way. */
    private record Following(long atUs, String point, int count) {}

    private TrainModules(LinkChoice.Modbus link, AppliedCounts terminals) throws Exception {
        this.link = link;
        this.terminals = terminals;
        pair = new TerminalPair(bytes -> {}, BITS_A_BYTE * 1_000_000_000 / link.baud());
        SerialPortServerTransport transport = SerialPortServerTransport.create(config -> {
            config.serialPort = pair.other();
            config.baudRate = link.baud();
        });
        server = new ModbusRtuServer(ModbusServerConfig.create(config -> {}), transport, new Modules());
        server.start();
    }

    /** @param file a Modbus bench file, whose points are then those of a simulated train */
    static TrainModules open(BenchFile file, Fixture fixture, long seed) throws Exception {
        return new TrainModules(
                (LinkChoice.Modbus) file.link(),
                new AppliedCounts(
                        SimulatedTerminals.open(simulated(file), fixture.wiring(), fixture.simulation(), seed), "BC1"));
    }

    /** What the transducer at the leading cylinder reads from now on. */
    void apply(int counts) {
        terminals.apply(counts);
    }

    /** The same bench in this process: what its transducers get wrong is as in the shipped simulated bench. */
    static BenchFile simulated(BenchFile file) {
        return new BenchFile(
                file.file(),
                file.name(),
                new LinkChoice.Simulated(1e-3, 200, 4e-4, 2e-4, 10e-6),
                file.clockRateBound(),
                file.points(),
                file.inputs(),
                file.outputs(),
                file.streams());
    }

    /**
     * A bench file that polls seldom and waits long for answers, for a machine that has other things to do.
     * Pseudo-terminals know no parity.
     */
    static String patient(String benchFile) {
        return benchFile
                .replace("parity: even", "parity: none")
                .replace("poll: 50 ms", "poll: 200 ms")
                .replace("round-trip: 30 ms", "round-trip: 400 ms")
                .replace("every: 50 ms", "every: 200 ms")
                // On whatever day this runs.
                .replaceAll("\n *due: .*", "");
    }

    String device() {
        return pair.one();
    }

    /** What an output is driven to, or an input reads, now. */
    synchronized int count(String point) {
        return terminals.read(point, now());
    }

    /** Whether any output is driven. */
    boolean live() {
        return count("R1") != 0 || count("R2") != 0 || count("V1") != 0;
    }

    private synchronized int read(int module, Table table, int address) throws UnknownUnitIdException {
        return terminals.read(register(module, table, address).point(), now());
    }

    /** What an output is driven to; 0 of one that the module has not. */
    private int driven(int module, Table table, int address) {
        try {
            return read(module, table, address);
        } catch (UnknownUnitIdException e) {
            return 0;
        }
    }

    private synchronized void write(int module, Table table, int address, int count) throws UnknownUnitIdException {
        Register register = register(module, table, address);
        long lateUs =
                count == 0 ? register.contact().releaseUs() : register.contact().operateUs();
        following.add(new Following(now() + lateUs, register.point(), count));
        now();
    }

    /** Lets the train come to now, and contacts follow their coils on the way. */
    private long now() {
        long us = terminals.us(clock.nanos() - beganNanos);
        while (!following.isEmpty() && following.peek().atUs() <= us) {
            Following next = following.remove();
            terminals.passUntil(next.atUs(), (point, level, atUs) -> {});
            terminals.drive(Map.of(next.point(), next.count()), next.atUs());
        }
        terminals.passUntil(us, (point, level, atUs) -> {});
        return us;
    }

    private Register register(int module, Table table, int address) throws UnknownUnitIdException {
        return link.registers().stream()
                .filter(each -> each.module() == module && each.table() == table && each.address() == address)
                .findFirst()
                .orElseThrow(() -> new UnknownUnitIdException(module));
    }

    private final class Modules implements ModbusServices {
        @Override
        public ReadInputRegistersResponse readInputRegisters(
                ModbusRequestContext context, int module, ReadInputRegistersRequest request)
                throws UnknownUnitIdException {
            byte[] words = new byte[2 * request.quantity()];
            for (int i = 0; i < request.quantity(); i++) {
                int count = read(module, Table.INPUT_REGISTER, request.address() + i);
                words[2 * i] = (byte) (count >> 8);
                words[2 * i + 1] = (byte) count;
            }
            return new ReadInputRegistersResponse(words);
        }

        @Override
        public ReadDiscreteInputsResponse readDiscreteInputs(
                ModbusRequestContext context, int module, ReadDiscreteInputsRequest request)
                throws UnknownUnitIdException {
            byte[] bits = new byte[(request.quantity() + 7) / 8];
            for (int i = 0; i < request.quantity(); i++) {
                bits[i / 8] |= (byte) (read(module, Table.DISCRETE_INPUT, request.address() + i) << i % 8);
            }
            return new ReadDiscreteInputsResponse(bits);
        }

        @Override
        public ReadCoilsResponse readCoils(ModbusRequestContext context, int module, ReadCoilsRequest request) {
            byte[] bits = new byte[(request.quantity() + 7) / 8];
            for (int i = 0; i < request.quantity(); i++) {
                bits[i / 8] |= (byte) (driven(module, Table.COIL, request.address() + i) << i % 8);
            }
            return new ReadCoilsResponse(bits);
        }

        @Override
        public ReadHoldingRegistersResponse readHoldingRegisters(
                ModbusRequestContext context, int module, ReadHoldingRegistersRequest request) {
            byte[] words = new byte[2 * request.quantity()];
            for (int i = 0; i < request.quantity(); i++) {
                int count = driven(module, Table.HOLDING_REGISTER, request.address() + i);
                words[2 * i] = (byte) (count >> 8);
                words[2 * i + 1] = (byte) count;
            }
            return new ReadHoldingRegistersResponse(words);
        }

        @Override
        public WriteSingleCoilResponse writeSingleCoil(
                ModbusRequestContext context, int module, WriteSingleCoilRequest request)
                throws UnknownUnitIdException {
            write(module, Table.COIL, request.address(), request.value() == 0 ? 0 : 1);
            return new WriteSingleCoilResponse(request.address(), request.value());
        }

        @Override
        public WriteMultipleCoilsResponse writeMultipleCoils(
                ModbusRequestContext context, int module, WriteMultipleCoilsRequest request)
                throws UnknownUnitIdException {
            for (int i = 0; i < request.quantity(); i++) {
                write(module, Table.COIL, request.address() + i, request.values()[i / 8] >> i % 8 & 1);
            }
            return new WriteMultipleCoilsResponse(request.address(), request.quantity());
        }

        @Override
        public WriteSingleRegisterResponse writeSingleRegister(
                ModbusRequestContext context, int module, WriteSingleRegisterRequest request)
                throws UnknownUnitIdException {
            write(module, Table.HOLDING_REGISTER, request.address(), request.value());
            return new WriteSingleRegisterResponse(request.address(), request.value());
        }
    }

    @Override
    public void close() {
        try {
            server.stop();
        } catch (Exception e) {
            throw new IllegalStateException(e);
        } finally {
            pair.close();
        }
    }
}
