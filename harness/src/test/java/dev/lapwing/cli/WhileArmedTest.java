package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchListener;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;

/** A bench that is left armed hears that somebody is at work, as long as somebody is. */
class WhileArmedTest {
    @Test
    void theBenchIsToldUntilTheWorkIsDone() {
        CountDownLatch toldTwice = new CountDownLatch(2);

        String done = WhileArmed.done(new Told(toldTwice), () -> {
            await(toldTwice);
            return "judged";
        });

        assertThat(done).isEqualTo("judged");
        assertThat(toldTwice.getCount()).isZero();
    }

    @Test
    void whatTheWorkThrowsIsThrown() {
        assertThatThrownBy(() -> WhileArmed.done(new Told(new CountDownLatch(1)), () -> {
                    throw new IllegalArgumentException("no such thing");
                }))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no such thing");
    }

    private static void await(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private record Told(CountDownLatch told) implements Bench {
        @Override
        public Identity identity() {
            return new Identity("told", "00000001", true);
        }

        @Override
        public long nowUs() {
            return 0;
        }

        @Override
        public void arm() {}

        @Override
        public void set(long id, Map<String, Integer> counts, long atUs, long overUs) {}

        @Override
        public void advance(long untilUs, BenchListener listener) {}

        @Override
        public void alive() {
            told.countDown();
        }

        @Override
        public void safe() {}

        @Override
        public void close() {}
    }
}
