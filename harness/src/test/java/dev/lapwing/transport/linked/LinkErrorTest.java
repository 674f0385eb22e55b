package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.HostMessage;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.KeepingUpTest.Counting;
import dev.lapwing.transport.linked.KeepingUpTest.Flooding;
import org.junit.jupiter.api.Test;

/** An error of ours in the link itself, while the bench is armed: the bench is told safe, and the run is told why. */
class LinkErrorTest {
    private static final BenchFile FILE = FarCab.reached(new LinkChoice.Serial("none", 921_600, 300, 1));
    private static final String OWN_THREAD = "lapwing link session";

    private volatile String breaksOn = "nowhere";

    private long nanos() {
        if (Thread.currentThread().getName().equals(breaksOn)) {
            breaksOn = "nowhere";
            throw new IllegalStateException("broken on purpose");
        }
        return MonotonicClock.system().nanos();
    }

    @Test
    void onTheThreadThatKeepsTheSession() throws Exception {
        Flooding line = new Flooding();
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, this::nanos)) {
            bench.arm();
            breaksOn = OWN_THREAD;

            endsWithTheReason(bench);
        }
        assertThat(line.said).anyMatch(HostMessage.Safe.class::isInstance);
    }

    @Test
    void whileAReportIsTaken() throws Exception {
        Flooding line = new Flooding();
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, this::nanos)) {
            bench.arm();
            breaksOn = Thread.currentThread().getName();
            assertThatThrownBy(() -> line.flood(1)).hasMessage("broken on purpose");

            endsWithTheReason(bench);
        }
        assertThat(line.said).anyMatch(HostMessage.Safe.class::isInstance);
    }

    @Test
    void aBenchThatNobodyArmedIsNotToldSafe() throws Exception {
        Flooding line = new Flooding();
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, this::nanos)) {
            breaksOn = OWN_THREAD;

            endsWithTheReason(bench);
        }
        assertThat(line.said).noneMatch(HostMessage.Safe.class::isInstance);
    }

    private static void endsWithTheReason(Bench bench) {
        assertThatThrownBy(() -> {
                    while (true) {
                        bench.advance(bench.nowUs() + 20_000, new Counting());
                    }
                })
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("an error of the harness")
                .hasMessageContaining("broken on purpose");
    }
}
