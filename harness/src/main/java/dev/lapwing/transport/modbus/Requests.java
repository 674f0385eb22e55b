package dev.lapwing.transport.modbus;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleCoilsRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.util.BitVector;
import dev.lapwing.bench.RegisterBlock;
import java.util.Arrays;

/** What is asked of a module, and whether an answer belongs to it: answers carry no number by which to tell. */
final class Requests {
    private static final int EXCEPTION = 0x80;
    /** Address and number, which an answer to a write repeats. */
    private static final int HEAD_BYTES = 4;

    /** Their answer has more bytes than that of any block, of 100 at the most. */
    private static final int MARKER_BITS = 112;

    private static final int MARKER_WORDS = 101;

    private Requests() {}

    static ModbusRequest read(RegisterBlock block) {
        int size = block.points().size();
        return switch (block.table()) {
            case DISCRETE_INPUT -> of(block.module(), new ReadInputDiscretesRequest(block.first(), size));
            case INPUT_REGISTER -> of(block.module(), new ReadInputRegistersRequest(block.first(), size));
            default -> throw new IllegalArgumentException(block.table() + " is driven, not read");
        };
    }

    /** @param values 0 and 1 of coils; of holding registers, of whose values the lower 16 bits count, any */
    static ModbusRequest write(RegisterBlock block, int[] values) {
        return switch (block.table()) {
            case COIL -> of(block.module(), coils(block.first(), values));
            case HOLDING_REGISTER -> of(block.module(), words(block.first(), values));
            default -> throw new IllegalArgumentException(block.table() + " is read, not driven");
        };
    }

    /** How outputs are: functions 1 and 3 (Modbus Application Protocol V1.1b3, sections 6.1 and 6.3). */
    static ModbusRequest readBack(RegisterBlock block) {
        int size = block.points().size();
        return switch (block.table()) {
            case COIL -> of(block.module(), new ReadCoilsRequest(block.first(), size));
            case HOLDING_REGISTER -> of(block.module(), new ReadMultipleRegistersRequest(block.first(), size));
            default -> throw new IllegalArgumentException(block.table() + " is read, not driven");
        };
    }

    /**
     * A question that no other has the answer of. It reads one coil or holding register back; after a look back at
     * outputs that was not answered, more of them than any look asks for. A module that has not so many says so, which
     * serves as well: no other request has such an answer.
     *
     * @param afterLook whether a look back may still be answered
     */
    static ModbusRequest marker(RegisterBlock block, boolean afterLook) {
        return of(
                block.module(),
                switch (block.table()) {
                    case COIL, DISCRETE_INPUT -> new ReadCoilsRequest(block.first(), afterLook ? MARKER_BITS : 1);
                    case INPUT_REGISTER, HOLDING_REGISTER ->
                        new ReadMultipleRegistersRequest(block.first(), afterLook ? MARKER_WORDS : 1);
                });
    }

    private static ModbusRequest of(int module, ModbusRequest request) {
        request.setUnitID(module);
        return request;
    }

    private static ModbusRequest coils(int first, int[] values) {
        if (values.length == 1) {
            return new WriteCoilRequest(first, values[0] != 0);
        }
        BitVector bits = new BitVector(values.length);
        for (int i = 0; i < values.length; i++) {
            bits.setBit(i, values[i] != 0);
        }
        return new WriteMultipleCoilsRequest(first, bits);
    }

    private static ModbusRequest words(int first, int[] values) {
        if (values.length == 1) {
            return new WriteSingleRegisterRequest(first, new SimpleRegister(values[0]));
        }
        Register[] words = new Register[values.length];
        for (int i = 0; i < values.length; i++) {
            words[i] = new SimpleRegister(values[i]);
        }
        return new WriteMultipleRegistersRequest(first, words);
    }

    /** True if a module says no to that request. */
    static boolean refuses(ModbusResponse answer, ModbusRequest request) {
        return answer.getUnitID() == request.getUnitID()
                && (answer.getFunctionCode() & 0xFF) == (request.getFunctionCode() | EXCEPTION);
    }

    /** True if an answer has module and function of that request. */
    static boolean ofTheKind(ModbusResponse answer, ModbusRequest request) {
        return answer.getUnitID() == request.getUnitID() && answer.getFunctionCode() == request.getFunctionCode();
    }

    /** True if an answer has module, function and length of that request, and of a write what it repeats. */
    static boolean answers(ModbusResponse answer, ModbusRequest request) {
        if (!ofTheKind(answer, request)) {
            return false;
        }
        byte[] came = answer.getMessage();
        byte[] asked = request.getMessage();
        return switch (request.getFunctionCode()) {
            case Modbus.READ_INPUT_DISCRETES,
                    Modbus.READ_INPUT_REGISTERS,
                    Modbus.READ_COILS,
                    Modbus.READ_MULTIPLE_REGISTERS -> came.length == 1 + dataBytes(request);
            case Modbus.WRITE_MULTIPLE_COILS, Modbus.WRITE_MULTIPLE_REGISTERS -> Arrays.equals(head(came), head(asked));
            default -> Arrays.equals(came, asked);
        };
    }

    private static int dataBytes(ModbusRequest request) {
        if (request instanceof ReadInputDiscretesRequest bits) {
            return (bits.getBitCount() + 7) / 8;
        }
        if (request instanceof ReadCoilsRequest coils) {
            return (coils.getBitCount() + 7) / 8;
        }
        return request instanceof ReadMultipleRegistersRequest words
                ? 2 * words.getWordCount()
                : 2 * ((ReadInputRegistersRequest) request).getWordCount();
    }

    private static byte[] head(byte[] message) {
        return Arrays.copyOf(message, HEAD_BYTES);
    }

    /** What stands in an answer: bits as 0 and 1, registers as 0 to 65535. */
    static int[] values(RegisterBlock block, ModbusResponse answer) {
        int[] values = new int[block.points().size()];
        for (int i = 0; i < values.length; i++) {
            values[i] = value(answer, i);
        }
        return values;
    }

    private static int value(ModbusResponse answer, int at) {
        if (answer instanceof ReadInputDiscretesResponse bits) {
            return bits.getDiscreteStatus(at) ? 1 : 0;
        }
        if (answer instanceof ReadCoilsResponse coils) {
            return coils.getCoilStatus(at) ? 1 : 0;
        }
        return answer instanceof ReadMultipleRegistersResponse words
                ? words.getRegisterValue(at)
                : ((ReadInputRegistersResponse) answer).getRegisterValue(at);
    }
}
