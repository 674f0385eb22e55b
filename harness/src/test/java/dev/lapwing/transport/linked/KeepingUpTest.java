package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.time.MonotonicClock;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

/**
 * A host whose user takes nothing, as behind a slow disk: what waits is bounded, reading goes on, and when there is too
 * much the run ends with a sentence. Nothing is dropped in silence.
 */
class KeepingUpTest {
    private static final BenchFile FILE = FarCab.reached(new LinkChoice.Serial("none", 921_600, 300, 1));
    private static final int MORE_THAN_WAIT = 60_000;

    @Test
    void whatNobodyTakesWaitsInItsOrder() throws Exception {
        Flooding line = new Flooding();
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, MonotonicClock.system())) {
            line.flood(10_000);
            Counting counting = new Counting();
            while (counting.edges.get() < 10_000) {
                bench.advance(bench.nowUs() + 20_000, counting);
            }

            assertThat(counting.lost.get()).isZero();
        }
    }

    @Test
    void tooMuchOfItEndsTheRunWithASentence() throws Exception {
        Flooding line = new Flooding();
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, MonotonicClock.system())) {
            line.flood(MORE_THAN_WAIT);

            assertThatThrownBy(() -> {
                        while (true) {
                            bench.advance(bench.nowUs() + 20_000, new Counting());
                        }
                    })
                    .isInstanceOf(BenchFailure.class)
                    .hasMessageContaining("did not keep up with what the bench reported");
        }
    }

    /** A line whose bench greets, answers pings, and refuses or says as many edges as it is told to. */
    static final class Flooding implements HostCarrier {
        private static final String BOOT = "00000001";

        /** Made beforehand: a line that takes half a second for a message is no line. */
        private final BenchCard card;

        private final Runnable onTheWay;
        /** What the host said. */
        final List<HostMessage> said = new CopyOnWriteArrayList<>();

        private Hearing hearing;
        private Optional<String> refusal = Optional.empty();
        private String session = "";
        private long n;
        private volatile boolean answeredToSet;

        Flooding() throws BenchFailure {
            this(() -> {});
        }

        /** @param onTheWay what happens while a ping is under way */
        Flooding(Runnable onTheWay) throws BenchFailure {
            this.onTheWay = onTheWay;
            card = FarCab.terminals().card(BOOT);
        }

        @Override
        public void listen(Hearing to) {
            hearing = to;
        }

        @Override
        public void send(HostMessage message) {
            said.add(message);
            if (message instanceof HostMessage.Hello hello) {
                session = hello.session();
                hearing.came(new BenchMessage.Greeting(session, hello.id(), 0, 1, card));
            } else if (message instanceof HostMessage.Ping ping) {
                onTheWay.run();
                hearing.came(new BenchMessage.Pong(session, ping.id(), n, 1));
            } else if (message instanceof HostMessage.Set set && refusal.isPresent()) {
                hearing.came(new BenchMessage.Refused(session, set.id(), refusal.get()));
                answeredToSet = true;
            } else if (message instanceof HostMessage.Command command) {
                hearing.came(new BenchMessage.Done(session, command.id(), n, 1));
            }
        }

        @Override
        public long lineNanos(int bytes) {
            return 0;
        }

        @Override
        public String whyNobody() {
            return "nobody answers";
        }

        /** From now on outputs are not driven. */
        void refusesToDrive(String why) {
            refusal = Optional.of(why);
        }

        /** Whether an order of outputs was refused, and the host heard so. */
        boolean answeredToSet() {
            return answeredToSet;
        }

        void becomesSafe(String why) {
            hearing.came(new BenchMessage.Safe(session, n++, 1, why, ""));
        }

        void flood(int edges) {
            for (int i = 0; i < edges; i++) {
                hearing.came(new BenchMessage.Edge(session, n++, 1, "D1", i % 2 == 0));
            }
        }

        @Override
        public void close() {}
    }

    static final class Counting implements SelectiveListener {
        private final AtomicLong edges = new AtomicLong();
        private final AtomicLong lost = new AtomicLong();

        @Override
        public void edge(String point, long atUs, boolean level) {
            edges.incrementAndGet();
        }

        @Override
        public void lost(String streamOrPoint, long fromUs, long toUs) {
            lost.incrementAndGet();
        }
    }
}
