package dev.lapwing.transport.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.net.AbstractSerialConnection;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import dev.lapwing.WaitingClock;
import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.Register.Table;
import dev.lapwing.bench.Stream;
import dev.lapwing.transport.serial.TerminalPair;
import java.util.List;
import java.util.Map;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A bench of modules against the library's own slave, at the other end of a pair of pseudo-terminals. */
class ModbusBenchTest {
    private static final long PATIENCE_US = 120_000_000;
    private static final long POLL_US = 50_000;
    /** So long an answer is awaited that does not come at once: long enough for a far end that is kept waiting. */
    private static final long ANSWER_US = 600_000;

    private final SimpleDigitalOut relay = new SimpleDigitalOut(true);
    private final SimpleDigitalIn wire = new SimpleDigitalIn(false);
    private final SimpleInputRegister pressure = new SimpleInputRegister(1234);
    private final HeardReports heard = new HeardReports();
    private TerminalPair pair;
    private ModbusSlave slave;
    private Bench bench;

    @BeforeEach
    void open() throws Exception {
        pair = new TerminalPair(bytes -> {});
        SerialParameters line = new SerialParameters();
        line.setPortName(pair.other());
        line.setBaudRate(115_200);
        line.setDatabits(8);
        line.setStopbits(1);
        line.setParity(AbstractSerialConnection.EVEN_PARITY);
        line.setEncoding(Modbus.SERIAL_ENCODING_RTU);
        slave = ModbusSlaveFactory.createSerialSlave(line);
        SimpleProcessImage image = new SimpleProcessImage(2);
        image.addDigitalOut(5, relay);
        image.addDigitalIn(0, wire);
        image.addInputRegister(0, pressure);
        slave.addProcessImage(2, image);
        slave.open();
        bench = opened(pair.one());
        arm();
    }

    private static Bench opened(String device) throws BenchFailure {
        LinkChoice.Modbus link = new LinkChoice.Modbus(
                device,
                115_200,
                LinkChoice.Parity.EVEN,
                POLL_US,
                ANSWER_US,
                List.of(
                        new Register("R1", 2, Table.COIL, 5),
                        new Register("D1", 2, Table.DISCRETE_INPUT, 0),
                        new Register("P1", 2, Table.INPUT_REGISTER, 0)));
        BenchFile file = new BenchFile(
                "bench.yaml",
                "relay box",
                link,
                200e-6,
                List.of(
                        new Point("R1", PointKind.DIGITAL_OUT, 0, 1, 0, 0, 0, 0),
                        new Point("D1", PointKind.DIGITAL_IN, 0, 1, 0, 0, 1_000, 0),
                        new Point("P1", PointKind.ANALOG_IN, 0, 4_095, 0, 0, 1_000, 0)),
                List.of(),
                List.of(),
                List.of(new Stream("pressures", List.of("P1"), POLL_US)));
        return ModbusBench.open(file, link, "boot", 200, new WaitingClock());
    }

    /** The slave needs a moment to open its end. */
    private void arm() throws BenchFailure {
        for (int i = 0; i < 9; i++) {
            try {
                bench.arm();
                return;
            } catch (BenchFailure e) {
                assertThat(e).hasMessageContaining("module 2 gave no good answer");
            }
        }
        bench.arm();
    }

    @AfterEach
    void close() {
        pair.plugIn();
        bench.close();
        ModbusSlaveFactory.close(slave);
        pair.close();
    }

    @Test
    void armingDrivesOutputsSafeAndWhatIsReadIsReported() throws BenchFailure {
        assertThat(relay.isSet()).isFalse();
        until(() -> !heard.counts.isEmpty() && heard.edges.contains("D1 false"));
        assertThat(heard.counts).contains(1234);
        wire.set(true);
        until(() -> heard.edges.contains("D1 true"));
    }

    @Test
    void aSetIsExecutedAndCloseRestoresWhatIsSafe() throws BenchFailure {
        long dueUs = bench.nowUs() + POLL_US;
        bench.set(7, Map.of("R1", 1), dueUs, 0);
        until(() -> heard.executed.contains(7L));
        assertThat(relay.isSet()).isTrue();
        assertThat(heard.executedUs).isGreaterThanOrEqualTo(dueUs);
        bench.close();
        assertThat(relay.isSet()).isFalse();
    }

    @Test
    void aPulledCableIsTold() throws BenchFailure {
        until(() -> !heard.counts.isEmpty());
        pair.pull();
        String failure = "";
        long endUs = bench.nowUs() + PATIENCE_US;
        while (failure.isEmpty() && bench.nowUs() < endUs) {
            try {
                bench.advance(bench.nowUs() + POLL_US, heard);
            } catch (BenchFailure e) {
                failure = e.getMessage();
            }
        }
        assertThat(failure).contains("the link to the bench is lost: module 2 gave no good answer");
        assertThat(heard.lost).contains("pressures", "D1");
    }

    private void until(BooleanSupplier reached) throws BenchFailure {
        long endUs = bench.nowUs() + PATIENCE_US;
        while (!reached.getAsBoolean() && bench.nowUs() < endUs) {
            bench.advance(bench.nowUs() + POLL_US, heard);
        }
        assertThat(reached.getAsBoolean()).isTrue();
    }
}
