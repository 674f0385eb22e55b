package dev.lapwing.transport.modbus;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

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
import dev.lapwing.transport.modbus.HandMadeModules.Asked;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What goes wrong between a host and its modules: relays at module 2, a transducer and a drive at module 3. */
class ModbusFaultsTest {
    private static final long PATIENCE_US = 120_000_000;
    private static final long POLL_US = 20_000;
    /** So long an answer is awaited that does not come at once: long enough for a far end that is kept waiting. */
    private static final long ANSWER_US = 600_000;

    private static final int OLD = 1_111;
    private static final int NEW = 2_222;

    private final HeardReports heard = new HeardReports();
    private HandMadeModules modules;
    private LinkChoice.Modbus link;
    private BenchFile file;
    private Bench bench;
    private final WaitingClock clock = new WaitingClock();
    private volatile boolean breaks;

    /** A clock that breaks once on the line's own thread, when it is told to. */
    private long nanos() {
        if (breaks && Thread.currentThread().getName().equals("lapwing modbus line")) {
            breaks = false;
            throw new IllegalStateException("broken on purpose");
        }
        return clock.nanos();
    }

    @BeforeEach
    void open() throws Exception {
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
        bench = ModbusBench.open(file, link, "boot", 200, this::nanos);
    }

    @AfterEach
    void close() {
        // Nobody waits for a module once the test is over.
        modules.behave(asked -> List.of(modules.answer(asked)));
        bench.close();
        modules.close();
    }

    @Test
    void aLateAnswerIsNeverTakenForTheNext() throws Exception {
        bench.arm();
        until(() -> heard.counts.contains(OLD));
        AtomicReference<byte[]> late = new AtomicReference<>(new byte[0]);
        AtomicInteger held = new AtomicInteger();
        modules.behave(asked -> {
            if (held.get() == 0 && reads(asked)) {
                late.set(modules.answer(asked));
                modules.words.put(0, NEW);
                held.incrementAndGet();
                return List.of();
            }
            byte[] before = late.getAndSet(new byte[0]);
            return before.length > 0 ? List.of(before, modules.answer(asked)) : List.of(modules.answer(asked));
        });
        until(() -> held.get() > 0);
        heard.counts.clear();
        until(() -> heard.counts.size() > 5);

        assertThat(heard.counts).containsOnly(NEW);
    }

    @Test
    void aLateEchoDoesNotMakeAnOutputSafe() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        // The module takes its orders no more, but an echo of one that it took is still on its way.
        modules.behave(asked -> asked.function() == 5 ? List.of() : List.of(modules.answer(asked)));
        bench.safe();
        until(() -> !heard.faults.isEmpty());

        assertThat(heard.faults)
                .contains("module 2 did not answer when outputs were made safe; see by hand that they are");
        assertThat(heard.safe).isEmpty();
        assertThat(modules.coils.get(5)).isOne();
    }

    @Test
    void aSpoiltAnswerCostsItsSampleAndIsToldAsALoss() throws Exception {
        bench.arm();
        AtomicInteger spoilt = new AtomicInteger();
        modules.behave(asked -> {
            byte[] answer = modules.answer(asked);
            if (reads(asked) && spoilt.getAndIncrement() == 0) {
                answer[4] ^= 0x10;
            }
            return List.of(answer);
        });
        until(() -> spoilt.get() > 0);
        int before = heard.counts.size();
        until(() -> heard.counts.size() > before + 5);

        assertThat(heard.counts).containsOnly(OLD);
    }

    @Test
    void aModuleThatStopsToAnswerJustBeforeTheEndIsAwaitedUntilItIsToldAsALoss() throws Exception {
        bench.arm();
        until(() -> heard.edges.contains("D1 false"));
        AtomicInteger unanswered = new AtomicInteger();
        AtomicBoolean silent = new AtomicBoolean(true);
        modules.behave(asked -> {
            if (asked.function() != 2 || !silent.get()) {
                return List.of(modules.answer(asked));
            }
            unanswered.incrementAndGet();
            return List.of();
        });
        until(() -> unanswered.get() > 0);
        long endUs = bench.nowUs();
        assertThat(bench.awaits(endUs)).isTrue();
        // Twice in vain is longer than the time in which one answer may come.
        until(() -> unanswered.get() > 1);
        silent.set(false);
        until(() -> !bench.awaits(endUs));

        assertThat(heard.lost).contains("D1");
    }

    @Test
    void nothingIsAwaitedOnceEverythingIsSafe() throws Exception {
        bench.arm();
        until(() -> !heard.counts.isEmpty());
        bench.safe();
        until(() -> !heard.safe.isEmpty());

        assertThat(bench.awaits(bench.nowUs())).isFalse();
    }

    @Test
    void anAnswerOfAnotherModuleIsSkipped() throws Exception {
        modules.behave(asked -> reads(asked)
                ? List.of(HandMadeModules.frame("09040203E8"), modules.answer(asked))
                : List.of(modules.answer(asked)));
        bench.arm();
        until(() -> heard.counts.size() > 5);

        assertThat(heard.counts).containsOnly(OLD);
    }

    @Test
    void anAnswerOfAnotherLengthIsRefused() throws Exception {
        bench.arm();
        modules.behave(asked ->
                reads(asked) ? List.of(HandMadeModules.frame("030404000007D0")) : List.of(modules.answer(asked)));

        assertThat(failure()).contains("module 3 answered something else");
    }

    @Test
    void aRefusalIsToldWithItsReason() {
        modules.behave(
                asked -> List.of(asked.function() == 4 ? HandMadeModules.refusal(asked, 2) : modules.answer(asked)));

        assertThatThrownBy(bench::arm)
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("module 3 refused its input-registers from 0 to 0 (exception 2)");
    }

    @Test
    void aModuleThatIsUnpluggedEndsItAndTheOtherIsMadeSafe() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        modules.behave(asked -> asked.module() == 3 ? List.of() : List.of(modules.answer(asked)));

        assertThat(failure())
                .contains(
                        "the link to the bench is lost: module 3 gave no good answer", "See by hand that all are safe");
        assertThat(modules.coils.get(5)).isZero();
        assertThat(heard.lost).contains("pressures");
        assertThat(heard.faults)
                .contains("module 3 did not answer when outputs were made safe; see by hand that they are");
    }

    @Test
    void aRampGoesInStepsFromWhereItWasAndSwitchesAtItsStart() throws Exception {
        bench.arm();
        bench.set(1, Map.of("V1", 1_000, "R1", 1), bench.nowUs(), 1_000_000);
        until(() -> heard.executed.contains(1L));
        assertThat(modules.coils.get(5)).isOne();
        until(() -> written().contains(1_000));

        assertThat(written()).startsWith(0, 0).isSorted().hasSizeGreaterThan(4);
        bench.set(2, Map.of("V1", 0), bench.nowUs(), 100_000);
        until(() -> written().get(written().size() - 1) == 0);
    }

    @Test
    void aRunnerThatStandsStillLeavesEverythingSafe() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        clock.waitsNoMore();
        await("the relay is off").until(() -> modules.coils.get(5) == 0);
        until(() -> !heard.safe.isEmpty());

        assertThat(heard.safe).containsExactly("beat-lost");
    }

    @Test
    void anErrorOfTheHarnessLeavesEverythingSafeAndIsTold() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1, "V1", 700), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        breaks = true;

        assertThat(failure()).contains("an error of the harness", "broken on purpose");
        assertThat(modules.coils.get(5)).isZero();
        assertThat(written()).endsWith(0);
    }

    @Test
    void parityOnADeviceWithoutHardwareIsToldFromABusyDevice() {
        bench.close();

        assertThatThrownBy(() -> ModbusBench.open(file, link, "boot", 200, this::nanos))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining(modules.device())
                .hasMessageContaining("write 'parity: none' in the bench file");
    }

    @Test
    void watchingMakesSafeAndDrivesNothing() throws Exception {
        modules.coils.put(5, 1);
        bench.watch();
        until(() -> heard.counts.size() > 2 && heard.edges.contains("D1 false"));

        assertThat(modules.coils.get(5)).isZero();
        assertThatThrownBy(() -> bench.set(1, Map.of("R1", 1), bench.nowUs(), 0))
                .hasMessageContaining("not armed");
        assertThat(modules.coils.get(5)).isZero();
    }

    @Test
    void aRelaysTimeIsInTheInstantThatIsTold() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));

        assertThat(heard.executedUs).isGreaterThan(9_000);
    }

    @Test
    void aModuleThatStartedAnewIsFoundAndEverythingIsMadeSafe() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1, "V1", 700), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        modules.coils.put(5, 0);
        until(() -> !heard.safe.isEmpty());

        assertThat(heard.faults)
                .singleElement()
                .asString()
                .startsWith("'R1' of module 2 was driven to 1 and reads back 0; look whether");
        assertThat(heard.lost).contains("pressures", "D1");
        assertThat(written()).endsWith(0);
    }

    @Test
    void anOutputThatNoLongerAnswersIsMissedThoughInputsDo() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        modules.behave(asked -> asked.function() == 3 ? List.of() : List.of(modules.answer(asked)));

        assertThat(failure()).contains("module 3 gave no good answer");
        assertThat(modules.coils.get(5)).isZero();
    }

    @Test
    void aRelayThatSticksIsToldWhereItSaysThatItWasMadeSafe() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        modules.behave(asked -> List.of(asked.function() == 5 ? asked.frame() : modules.answer(asked)));
        bench.safe();
        until(() -> !heard.faults.isEmpty());

        assertThat(heard.faults)
                .singleElement()
                .asString()
                .startsWith("outputs were made safe, but 'R1' of module 2 was driven to 0 and reads back 1")
                .endsWith("see by hand that they are");
        assertThat(heard.safe).isEmpty();
    }

    @Test
    void nothingIsArmedWhileARelaySticks() {
        modules.coils.put(5, 1);
        modules.behave(asked -> List.of(asked.function() == 5 ? asked.frame() : modules.answer(asked)));

        assertThatThrownBy(bench::arm)
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("cannot be armed: 'R1' of module 2 was driven to 0 and reads back 1");
    }

    @Test
    void aLateLookBackHidesNoModuleThatStartedAnew() throws Exception {
        bench.arm();
        bench.set(1, Map.of("R1", 1), bench.nowUs(), 0);
        until(() -> heard.executed.contains(1L));
        AtomicReference<byte[]> late = new AtomicReference<>(new byte[0]);
        modules.behave(asked -> {
            if (asked.function() == 1 && modules.coils.put(5, 0) == 1) {
                modules.coils.put(5, 1);
                late.set(modules.answer(asked));
                modules.coils.put(5, 0);
                return List.of();
            }
            byte[] before = asked.module() == 2 ? late.getAndSet(new byte[0]) : new byte[0];
            return before.length > 0 ? List.of(before, modules.answer(asked)) : List.of(modules.answer(asked));
        });
        until(() -> !heard.safe.isEmpty());

        assertThat(heard.faults).singleElement().asString().contains("was driven to 1 and reads back 0");
    }

    private static boolean reads(Asked asked) {
        return asked.function() == 4;
    }

    private List<Integer> written() {
        synchronized (modules.written) {
            return new ArrayList<>(modules.written);
        }
    }

    private String failure() {
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

    private void until(BooleanSupplier reached) throws BenchFailure {
        long endUs = bench.nowUs() + PATIENCE_US;
        while (!reached.getAsBoolean() && bench.nowUs() < endUs) {
            bench.advance(bench.nowUs() + POLL_US, heard);
        }
        assertThat(reached.getAsBoolean()).isTrue();
    }
}
