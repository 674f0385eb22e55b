package dev.lapwing.transport.modbus;

import static org.assertj.core.api.Assertions.assertThat;

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
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;

/** A host and its modules: relays at module 2, a transducer and a drive at module 3. */
final class TwoModules implements AutoCloseable {
    private static final long PATIENCE_US = 120_000_000;
    static final long POLL_US = 20_000;
    /** So long an answer is awaited that does not come at once: long enough for a far end that is kept waiting. */
    static final long ANSWER_US = 600_000;

    static final int OLD = 1_111;
    static final int NEW = 2_222;

    final HeardReports heard = new HeardReports();
    final HandMadeModules modules;
    private final LinkChoice.Modbus link;
    private final BenchFile file;
    final Bench bench;
    final WaitingClock clock = new WaitingClock();
    volatile boolean breaks;

    /** A clock that breaks once on the line's own thread, when it is told to. */
    private long nanos() {
        if (breaks && Thread.currentThread().getName().equals("lapwing modbus line")) {
            breaks = false;
            throw new IllegalStateException("broken on purpose");
        }
        return clock.nanos();
    }

    TwoModules() throws Exception {
        modules = new HandMadeModules();
        modules.words.put(0, OLD);
        link = new LinkChoice.Modbus(
                modules.device(),
                115_200,
                LinkChoice.Parity.EVEN,
                POLL_US,
                ANSWER_US,
                List.of(
                        new Register("R1", 2, Table.COIL, 5, new Register.Contact(9_000, 5_000, 1_000)),
                        new Register("D1", 2, Table.DISCRETE_INPUT, 0),
                        new Register("V1", 3, Table.HOLDING_REGISTER, 0),
                        new Register("P1", 3, Table.INPUT_REGISTER, 0)));
        file = new BenchFile(
                "bench.yaml",
                "relay box",
                link,
                200e-6,
                List.of(
                        new Point("R1", PointKind.DIGITAL_OUT, 0, 1, 0, 0, 0, 0),
                        new Point("D1", PointKind.DIGITAL_IN, 0, 1, 0, 0, 1_000, 0),
                        new Point("V1", PointKind.ANALOG_OUT, 0, 4_095, 0, 0, 0, 0),
                        new Point("P1", PointKind.ANALOG_IN, 0, 4_095, 0, 0, 1_000, 0)),
                List.of(),
                List.of(),
                List.of(new Stream("pressures", List.of("P1"), POLL_US)));
        bench = opened();
    }

    /** Opens the line once more. */
    Bench opened() throws BenchFailure {
        return ModbusBench.open(file, link, "boot", 200, this::nanos);
    }

    @Override
    public void close() {
        // Nobody waits for a module once the test is over.
        modules.behave(asked -> List.of(modules.answer(asked)));
        bench.close();
        modules.close();
    }

    List<Integer> written() {
        synchronized (modules.written) {
            return new ArrayList<>(modules.written);
        }
    }

    String failure() {
        long endUs = bench.nowUs() + PATIENCE_US;
        while (bench.nowUs() < endUs) {
            try {
                bench.advance(bench.nowUs() + POLL_US, heard);
            } catch (BenchFailure e) {
                return e.getMessage();
            }
        }
        return "";
    }

    void until(BooleanSupplier reached) throws BenchFailure {
        long endUs = bench.nowUs() + PATIENCE_US;
        while (!reached.getAsBoolean() && bench.nowUs() < endUs) {
            bench.advance(bench.nowUs() + POLL_US, heard);
        }
        assertThat(reached.getAsBoolean()).isTrue();
    }
}
