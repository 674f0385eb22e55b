package dev.lapwing.transport.modbus;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.io.ModbusSerialTransaction;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleCoilsRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;
import com.ghgande.j2mod.modbus.net.AbstractSerialConnection;
import com.ghgande.j2mod.modbus.net.SerialConnection;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.util.BitVector;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.LinkChoice;
import java.io.IOException;

/**
 * A master's end of a Modbus RTU line. One request at a time, each answered or failed before the next; nothing is
 * repeated here. For one thread at a time.
 */
final class ModbusLine implements AutoCloseable {
    /** The serial library counts in steps of 100 ms; an answer that is there is taken at once. */
    private static final int ANSWER_MS_MIN = 200;

    private final AbstractSerialConnection connection;

    private ModbusLine(AbstractSerialConnection connection) {
        this.connection = connection;
    }

    static ModbusLine open(LinkChoice.Modbus choice) throws BenchFailure {
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
        AbstractSerialConnection connection = new SerialConnection(line);
        connection.setTimeout((int) Math.max(ANSWER_MS_MIN, 2 * choice.roundTripUs() / 1000));
        try {
            connection.open();
        } catch (IOException | RuntimeException e) {
            throw new BenchFailure(
                    "the serial device '" + choice.device()
                            + "' cannot be opened; look at the cable and the name, and whether another program has it",
                    e);
        }
        return new ModbusLine(connection);
    }

    /** What stands in a block of discrete inputs, as 0 and 1, or of input registers, as 0 to 65535. */
    int[] read(Block block) throws IOException {
        int size = block.points().size();
        int[] values = new int[size];
        switch (block.table()) {
            case DISCRETE_INPUT -> {
                ModbusResponse answer = answer(block, new ReadInputDiscretesRequest(block.first(), size));
                if (!(answer instanceof ReadInputDiscretesResponse bits) || bits.getBitCount() < size) {
                    throw new IOException("module " + block.module() + " answered something else");
                }
                for (int i = 0; i < size; i++) {
                    values[i] = bits.getDiscreteStatus(i) ? 1 : 0;
                }
            }
            case INPUT_REGISTER -> {
                ModbusResponse answer = answer(block, new ReadInputRegistersRequest(block.first(), size));
                if (!(answer instanceof ReadInputRegistersResponse words) || words.getWordCount() != size) {
                    throw new IOException("module " + block.module() + " answered something else");
                }
                for (int i = 0; i < size; i++) {
                    values[i] = words.getRegisterValue(i);
                }
            }
            default -> throw new IllegalArgumentException(block.table() + " is driven, not read");
        }
        return values;
    }

    /** Drives a block of coils, by 0 and 1, or of holding registers, of whose values the lower 16 bits count. */
    void write(Block block, int[] values) throws IOException {
        answer(block, request(block, values));
    }

    private static ModbusRequest request(Block block, int[] values) {
        boolean one = values.length == 1;
        switch (block.table()) {
            case COIL -> {
                if (one) {
                    return new WriteCoilRequest(block.first(), values[0] != 0);
                }
                BitVector bits = new BitVector(values.length);
                for (int i = 0; i < values.length; i++) {
                    bits.setBit(i, values[i] != 0);
                }
                return new WriteMultipleCoilsRequest(block.first(), bits);
            }
            case HOLDING_REGISTER -> {
                if (one) {
                    return new WriteSingleRegisterRequest(block.first(), new SimpleRegister(values[0]));
                }
                Register[] words = new Register[values.length];
                for (int i = 0; i < values.length; i++) {
                    words[i] = new SimpleRegister(values[i]);
                }
                return new WriteMultipleRegistersRequest(block.first(), words);
            }
            default -> throw new IllegalArgumentException(block.table() + " is read, not driven");
        }
    }

    private ModbusResponse answer(Block block, ModbusRequest request) throws IOException {
        request.setUnitID(block.module());
        ModbusSerialTransaction transaction = new ModbusSerialTransaction(connection);
        transaction.setRequest(request);
        // One try: who asks again must know how much later the answer then is.
        transaction.setRetries(1);
        transaction.setCheckingValidity(true);
        try {
            transaction.execute();
            return transaction.getResponse();
        } catch (ModbusSlaveException e) {
            throw new IOException(
                    "module " + block.module() + " refused its " + block.table().text() + "s from " + block.first()
                            + " to " + block.last() + " (exception " + e.getType() + "); look at the bench file",
                    e);
        } catch (ModbusException | RuntimeException e) {
            throw new IOException("module " + block.module() + " gave no good answer", e);
        }
    }

    @Override
    public void close() {
        connection.close();
    }
}
