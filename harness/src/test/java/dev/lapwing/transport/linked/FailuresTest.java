package dev.lapwing.transport.linked;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.host.HostEvent.EndReason;
import dev.lapwing.link.host.HostEvent.Ended;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.KeepingUpTest.Counting;
import dev.lapwing.transport.linked.KeepingUpTest.Flooding;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What a user reads when a link ends or a bench does not obey: what happened, what the bench does, what to do. */
class FailuresTest {
    private static final BenchFile FILE = FarCab.reached(new LinkChoice.Serial("none", 921_600, 300, 1));
    private static final String WHAT_TO_DO = "(?s).*(Look|look|[Cc]ompare|wait).*";

    @ParameterizedTest
    @EnumSource(EndReason.class)
    void eachEndOfALinkSaysWhatToDo(EndReason reason) {
        String why = reason == EndReason.REFUSED ? "busy" : "something came";

        assertThat(Failures.ended(new Ended(reason, why))).message().matches(WHAT_TO_DO);
    }

    @Test
    void aLostLinkSaysWhatTheBenchDoes() {
        assertThat(Failures.ended(new Ended(EndReason.LINK_LOST, "a command was said six times and not answered")))
                .hasMessage("the link to the bench is lost: a command was said six times and not answered. An armed"
                        + " bench makes itself safe then. 'lapwing bench show' tells whether it answers; if it does"
                        + " not, look at its power and at the cable or the broker");
    }

    @ParameterizedTest
    @EnumSource(Refusal.class)
    void eachRefusalToDriveSaysWhatToDo(Refusal word) {
        assertThat(Failures.notDriven(word.word()))
                .hasMessageStartingWith("the bench did not drive its outputs: ")
                .message()
                .matches(WHAT_TO_DO);
    }

    @Test
    void aBenchThatIsNotArmedDrivesNothingAndItIsSaidWhereItsOutputsAre() throws Exception {
        Flooding line = new Flooding();
        line.refusesToDrive("not-armed");
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, MonotonicClock.system())) {
            bench.watch();
            bench.set(1, Map.of("W1", 1), bench.nowUs() + 1_000, 0);

            assertThatThrownBy(() -> untilHeard(line, bench))
                    .isInstanceOf(BenchFailure.class)
                    .hasMessage("the bench did not drive its outputs: it is not armed, and they are at their safe"
                            + " values. Look at what ended the arming, then run again");
        }
    }

    /** Or a run would end with the consequence in place of the cause. */
    @Test
    void aBenchThatTakesNoLimitSoLongIsNotArmedAndTheFileIsToBePutRight() throws Exception {
        Flooding line = new Flooding();
        try (Bench bench = LinkedBench.open(FILE, 600, FarCab.host(1), line, MonotonicClock.system())) {
            assertThatThrownBy(bench::arm)
                    .isInstanceOf(BenchFailure.class)
                    .hasMessage("the bench takes heartbeat limits up to 500 ms; " + FILE.file()
                            + " asks for 600 ms; write 'beat: 500 ms' at its link");
            assertThat(line.said).noneMatch(HostMessage.Arm.class::isInstance);
        }
    }

    @Test
    void whatIsRefusedOnceABenchBecameSafeIsNoFailureOfItsOwn() throws Exception {
        Flooding line = new Flooding();
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, MonotonicClock.system())) {
            bench.watch();
            line.becomesSafe("beat-lost");
            line.refusesToDrive("not-armed");
            bench.set(1, Map.of("W1", 1), bench.nowUs() + 1_000, 0);

            untilHeard(line, bench);
        }
    }

    /** Its bench does answer: to say that it does not would send the user to cable and power. */
    @Test
    void aLineThatIsTooSlowToArmOverIsToldAsThat() throws Exception {
        AtomicLong lateNanos = new AtomicLong();
        Flooding line = new Flooding(() -> lateNanos.addAndGet(400_000_000));
        MonotonicClock machine = MonotonicClock.system();
        try (Bench bench = LinkedBench.open(FILE, 300, FarCab.host(1), line, () -> machine.nanos() + lateNanos.get())) {
            assertThatThrownBy(bench::arm)
                    .isInstanceOf(BenchFailure.class)
                    .hasMessageContaining("again and again a round trip took")
                    .hasMessageContaining("take a faster line");
        }
    }

    /** Hands on what the bench answered to an order of outputs, once it did: a busy machine takes its time. */
    private static void untilHeard(Flooding line, Bench bench) throws BenchFailure {
        await("an answer of the bench").until(line::answeredToSet);
        bench.advance(bench.nowUs(), new Counting());
    }
}
