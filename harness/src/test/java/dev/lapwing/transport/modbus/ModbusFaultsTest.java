package dev.lapwing.transport.modbus;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.transport.modbus.HandMadeModules.Asked;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What goes wrong between a host and its modules. */
class ModbusFaultsTest {
    private TwoModules rig;

    @BeforeEach
    void open() throws Exception {
        rig = new TwoModules();
    }

    @AfterEach
    void close() {
        rig.close();
    }

    @Test
    void aLateAnswerIsNeverTakenForTheNext() throws Exception {
        rig.bench.arm();
        rig.until(() -> rig.heard.counts.contains(TwoModules.OLD));
        AtomicReference<byte[]> late = new AtomicReference<>(new byte[0]);
        AtomicInteger held = new AtomicInteger();
        rig.modules.behave(asked -> {
            if (held.get() == 0 && reads(asked)) {
                late.set(rig.modules.answer(asked));
                rig.modules.words.put(0, TwoModules.NEW);
                held.incrementAndGet();
                return List.of();
            }
            byte[] before = late.getAndSet(new byte[0]);
            return before.length > 0 ? List.of(before, rig.modules.answer(asked)) : List.of(rig.modules.answer(asked));
        });
        rig.until(() -> held.get() > 0);
        rig.heard.counts.clear();
        rig.until(() -> rig.heard.counts.size() > 5);

        assertThat(rig.heard.counts).containsOnly(TwoModules.NEW);
    }

    @Test
    void aLateEchoDoesNotMakeAnOutputSafe() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        // The module takes its orders no more, but an echo of one that it took is still on its way.
        rig.modules.behave(asked -> asked.function() == 5 ? List.of() : List.of(rig.modules.answer(asked)));
        rig.bench.safe();
        rig.until(() -> !rig.heard.faults.isEmpty());

        assertThat(rig.heard.faults)
                .contains("module 2 did not answer when outputs were made safe; see by hand that they are");
        assertThat(rig.heard.safe).isEmpty();
        assertThat(rig.modules.coils.get(5)).isOne();
    }

    @Test
    void aSpoiltAnswerCostsItsSampleAndIsToldAsALoss() throws Exception {
        rig.bench.arm();
        AtomicInteger spoilt = new AtomicInteger();
        rig.modules.behave(asked -> {
            byte[] answer = rig.modules.answer(asked);
            if (reads(asked) && spoilt.getAndIncrement() == 0) {
                answer[4] ^= 0x10;
            }
            return List.of(answer);
        });
        rig.until(() -> spoilt.get() > 0);
        int before = rig.heard.counts.size();
        rig.until(() -> rig.heard.counts.size() > before + 5);

        assertThat(rig.heard.counts).containsOnly(TwoModules.OLD);
    }

    @Test
    void aModuleThatStopsToAnswerJustBeforeTheEndIsAwaitedUntilItIsToldAsALoss() throws Exception {
        rig.bench.arm();
        rig.until(() -> rig.heard.edges.contains("D1 false"));
        AtomicInteger unanswered = new AtomicInteger();
        AtomicBoolean silent = new AtomicBoolean(true);
        rig.modules.behave(asked -> {
            if (asked.function() != 2 || !silent.get()) {
                return List.of(rig.modules.answer(asked));
            }
            unanswered.incrementAndGet();
            return List.of();
        });
        rig.until(() -> unanswered.get() > 0);
        long endUs = rig.bench.nowUs();
        assertThat(rig.bench.awaits(endUs)).isTrue();
        // Twice in vain is longer than the time in which one answer may come.
        rig.until(() -> unanswered.get() > 1);
        silent.set(false);
        rig.until(() -> !rig.bench.awaits(endUs));

        assertThat(rig.heard.lost).contains("D1");
    }

    @Test
    void nothingIsAwaitedOnceEverythingIsSafe() throws Exception {
        rig.bench.arm();
        rig.until(() -> !rig.heard.counts.isEmpty());
        rig.bench.safe();
        rig.until(() -> !rig.heard.safe.isEmpty());

        assertThat(rig.bench.awaits(rig.bench.nowUs())).isFalse();
    }

    @Test
    void anAnswerOfAnotherModuleIsSkipped() throws Exception {
        rig.modules.behave(asked -> reads(asked)
                ? List.of(HandMadeModules.frame("09040203E8"), rig.modules.answer(asked))
                : List.of(rig.modules.answer(asked)));
        rig.bench.arm();
        rig.until(() -> rig.heard.counts.size() > 5);

        assertThat(rig.heard.counts).containsOnly(TwoModules.OLD);
    }

    @Test
    void anAnswerOfAnotherLengthIsRefused() throws Exception {
        rig.bench.arm();
        rig.modules.behave(asked ->
                reads(asked) ? List.of(HandMadeModules.frame("030404000007D0")) : List.of(rig.modules.answer(asked)));

        assertThat(rig.failure()).contains("module 3 answered something else");
    }

    @Test
    void aRefusalIsToldWithItsReason() {
        rig.modules.behave(asked ->
                List.of(asked.function() == 4 ? HandMadeModules.refusal(asked, 2) : rig.modules.answer(asked)));

        assertThatThrownBy(rig.bench::arm)
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("module 3 refused its input-registers from 0 to 0 (exception 2)");
    }

    @Test
    void aModuleThatIsUnpluggedEndsItAndTheOtherIsMadeSafe() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        rig.modules.behave(asked -> asked.module() == 3 ? List.of() : List.of(rig.modules.answer(asked)));

        assertThat(rig.failure())
                .contains(
                        "the link to the bench is lost: module 3 gave no good answer", "See by hand that all are safe");
        assertThat(rig.modules.coils.get(5)).isZero();
        assertThat(rig.heard.lost).contains("pressures");
        assertThat(rig.heard.faults)
                .contains("module 3 did not answer when outputs were made safe; see by hand that they are");
    }

    @Test
    void aRampGoesInStepsFromWhereItWasAndSwitchesAtItsStart() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("V1", 1_000, "R1", 1), rig.bench.nowUs(), 1_000_000);
        rig.until(() -> rig.heard.executed.contains(1L));
        assertThat(rig.modules.coils.get(5)).isOne();
        rig.until(() -> rig.written().contains(1_000));

        assertThat(rig.written()).startsWith(0, 0).isSorted().hasSizeGreaterThan(4);
        rig.bench.set(2, Map.of("V1", 0), rig.bench.nowUs(), 100_000);
        rig.until(() -> rig.written().get(rig.written().size() - 1) == 0);
    }

    @Test
    void aRunnerThatStandsStillLeavesEverythingSafe() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        rig.clock.waitsNoMore();
        await("the relay is off").until(() -> rig.modules.coils.get(5) == 0);
        rig.until(() -> !rig.heard.safe.isEmpty());

        assertThat(rig.heard.safe).containsExactly("beat-lost");
    }

    @Test
    void anErrorOfTheHarnessLeavesEverythingSafeAndIsTold() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1, "V1", 700), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        rig.breaks = true;

        assertThat(rig.failure()).contains("an error of the harness", "broken on purpose");
        assertThat(rig.modules.coils.get(5)).isZero();
        assertThat(rig.written()).endsWith(0);
    }

    @Test
    void parityOnADeviceWithoutHardwareIsToldFromABusyDevice() {
        rig.bench.close();

        assertThatThrownBy(() -> rig.opened())
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining(rig.modules.device())
                .hasMessageContaining("write 'parity: none' in the bench file");
    }

    @Test
    void watchingMakesSafeAndDrivesNothing() throws Exception {
        rig.modules.coils.put(5, 1);
        rig.bench.watch();
        rig.until(() -> rig.heard.counts.size() > 2 && rig.heard.edges.contains("D1 false"));

        assertThat(rig.modules.coils.get(5)).isZero();
        assertThatThrownBy(() -> rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0))
                .hasMessageContaining("not armed");
        assertThat(rig.modules.coils.get(5)).isZero();
    }

    @Test
    void aRelaysTimeIsInTheInstantThatIsTold() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));

        assertThat(rig.heard.executedUs).isGreaterThan(9_000);
    }

    private static boolean reads(Asked asked) {
        return asked.function() == 4;
    }
}
