package dev.lapwing.transport.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.BenchFailure;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Outputs that are not as they were driven. */
class ModbusLookBackTest {
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
    void aModuleThatStartedAnewIsFoundAndEverythingIsMadeSafe() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1, "V1", 700), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        rig.modules.coils.put(5, 0);
        rig.until(() -> !rig.heard.safe.isEmpty());

        assertThat(rig.heard.faults)
                .singleElement()
                .asString()
                .startsWith("'R1' of module 2 was driven to 1 and reads back 0; look whether");
        assertThat(rig.heard.lost).contains("pressures", "D1");
        assertThat(rig.written()).endsWith(0);
    }

    @Test
    void anOutputThatNoLongerAnswersIsMissedThoughInputsDo() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        rig.modules.behave(asked -> asked.function() == 3 ? List.of() : List.of(rig.modules.answer(asked)));

        assertThat(rig.failure()).contains("module 3 gave no good answer");
        assertThat(rig.modules.coils.get(5)).isZero();
    }

    @Test
    void aRelayThatSticksIsToldWhereItSaysThatItWasMadeSafe() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        rig.modules.behave(asked -> List.of(asked.function() == 5 ? asked.frame() : rig.modules.answer(asked)));
        rig.bench.safe();
        rig.until(() -> !rig.heard.faults.isEmpty());

        assertThat(rig.heard.faults)
                .singleElement()
                .asString()
                .startsWith("outputs were made safe, but 'R1' of module 2 was driven to 0 and reads back 1")
                .endsWith("see by hand that they are");
        assertThat(rig.heard.safe).isEmpty();
    }

    @Test
    void nothingIsArmedWhileARelaySticks() {
        rig.modules.coils.put(5, 1);
        rig.modules.behave(asked -> List.of(asked.function() == 5 ? asked.frame() : rig.modules.answer(asked)));

        assertThatThrownBy(rig.bench::arm)
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("cannot be armed: 'R1' of module 2 was driven to 0 and reads back 1");
    }

    @Test
    void aLateLookBackHidesNoModuleThatStartedAnew() throws Exception {
        rig.bench.arm();
        rig.bench.set(1, Map.of("R1", 1), rig.bench.nowUs(), 0);
        rig.until(() -> rig.heard.executed.contains(1L));
        AtomicReference<byte[]> late = new AtomicReference<>(new byte[0]);
        rig.modules.behave(asked -> {
            if (asked.function() == 1 && rig.modules.coils.put(5, 0) == 1) {
                rig.modules.coils.put(5, 1);
                late.set(rig.modules.answer(asked));
                rig.modules.coils.put(5, 0);
                return List.of();
            }
            byte[] before = asked.module() == 2 ? late.getAndSet(new byte[0]) : new byte[0];
            return before.length > 0 ? List.of(before, rig.modules.answer(asked)) : List.of(rig.modules.answer(asked));
        });
        rig.until(() -> !rig.heard.safe.isEmpty());

        assertThat(rig.heard.faults).singleElement().asString().contains("was driven to 1 and reads back 0");
    }
}
