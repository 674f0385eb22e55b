package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import dev.lapwing.fixture.Simulation.ControllerKind;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class AllocationTest {
    private static final int STEPS = 100_000;

    @ParameterizedTest
    @EnumSource
    void aStepAllocatesNothing(ControllerKind kind) {
        ThreadMXBean thread = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        HandWound cab = new HandWound(TestUnits.unit(kind)).driving(2);
        for (double degrees : new double[] {TestUnits.RELEASE, TestUnits.ep(0.5), TestUnits.automatic(0.5)}) {
            cab.handle(degrees).run(1);
            long before = thread.getCurrentThreadAllocatedBytes();
            for (int i = 0; i < STEPS; i++) {
                cab.step();
            }
            long allocated = thread.getCurrentThreadAllocatedBytes() - before;
            // The question itself and what the compiler does beside may cost a little, never a byte a step.
            assertThat(allocated).as("%s, %s degrees", kind, degrees).isLessThan(STEPS / 2);
        }
    }
}
