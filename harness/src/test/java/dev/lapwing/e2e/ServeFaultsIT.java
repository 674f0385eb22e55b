package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.mqtt.FreePort;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Each fault that {@code bench serve} injects, as it is shipped: who looks at the bench meets it. */
class ServeFaultsIT {
    private static final Pattern LOST = Pattern.compile("of (\\d+) pings; (\\d+) lost");
    private static final Pattern MEDIAN = Pattern.compile("half within ([0-9.]+) ms");

    /** After it was switched on, which is after its command was given. */
    private static final int SOON_SECONDS = 12;

    /** Where it took longer than that to listen. */
    private static final int LATE_SECONDS = 90;

    private static final MonotonicClock CLOCK = MonotonicClock.system();

    @TempDir
    private Path folder;

    private Process served;

    @AfterEach
    void stop() throws InterruptedException {
        served.destroy();
        assertThat(served.waitFor(1, TimeUnit.MINUTES)).isTrue();
    }

    private String serial(String fault) throws IOException {
        served = Shipped.start("bench", "serve", "--serial", "--fault", fault);
        return served.inputReader().readLine();
    }

    /**
     * A ping and its answer are some 180 bytes: of 200, seven to thirteen are expected to be spoilt; that none is has a
     * probability below a thousandth. A greeting of some 4,600 bytes comes through once in six times or more.
     */
    @ParameterizedTest
    @ValueSource(strings = {"bit-errors=4e-5", "dropped=3e-4", "doubled=3e-4"})
    @Execution(ExecutionMode.CONCURRENT)
    void whatIsSpoiltOnTheLineIsMissed(String fault) throws Exception {
        Ended shown = Shipped.lapwing("bench", "show", "--serial", serial(fault), "--pings", 200);

        assertThat(shown.exit()).as(shown.out() + shown.err()).isZero();
        Matcher lost = LOST.matcher(shown.out());
        assertThat(lost.find()).isTrue();
        assertThat(Integer.parseInt(lost.group(2))).as(shown.out()).isBetween(1, 60);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void whatIsDelayedComesLaterBothWays() throws Exception {
        Ended shown = Shipped.lapwing("bench", "show", "--serial", serial("delay=40 ms/20 ms"), "--pings", 20);

        assertThat(medianMs(shown)).isGreaterThan(80);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void messagesOfABrokerAreDelayedAndLostToo() throws Exception {
        Path late = over("own-broker", "delay=40 ms/20 ms");
        Ended shown = Shipped.lapwing("bench", "show", late, "--pings", 20);
        assertThat(medianMs(shown)).isGreaterThan(80);
        stop();

        Ended gone = Shipped.lapwing("bench", "show", over("own-broker", "dropped=1"));
        assertThat(gone.exit()).isEqualTo(3);
        assertThat(gone.err()).contains("no bench 'simulated-four-vehicle-bench' answers on tcp://127.0.0.1:");
    }

    @ParameterizedTest
    @ValueSource(strings = {"bit-errors=1e-4", "wrong-baud=1 s", "stranger=1 s"})
    @Execution(ExecutionMode.CONCURRENT)
    void whatMeetsBytesIsRefusedOnABroker(String fault) throws Exception {
        served = Shipped.start("bench", "serve", "--mqtt", "tcp://localhost:1883", "--fault", fault);
        Ended ended = Shipped.ended(served);

        assertThat(ended.exit()).isEqualTo(64);
        assertThat(ended.err()).contains("a broker carries whole messages");
    }

    @ParameterizedTest
    @ValueSource(strings = {"unplugged=10 min", "stall=10 min"})
    @Execution(ExecutionMode.CONCURRENT)
    void aDeadLineSaysNothing(String fault) throws Exception {
        Ended shown = Shipped.lapwing("bench", "show", "--serial", serial(fault));

        assertThat(shown.exit()).isEqualTo(3);
        assertThat(shown.err()).contains("nobody answers at '/dev/pts/", "nothing comes from there");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void atAnotherBaudRateNobodyUnderstands() throws Exception {
        Ended shown = Shipped.lapwing("bench", "show", "--serial", serial("wrong-baud=10 min"));

        assertThat(shown.exit()).isEqualTo(3);
        assertThat(shown.err()).contains("nobody answers");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aStrangerOnTheLineKeepsNobodyOut() throws Exception {
        Ended shown = Shipped.lapwing("bench", "show", "--serial", serial("stranger=10 min"), "--pings", 20);

        assertThat(shown.exit()).as(shown.err()).isZero();
        assertThat(shown.out()).contains("Bench:      simulated-four-vehicle-bench");
    }

    @ParameterizedTest
    @ValueSource(strings = {"serial", "own-broker"})
    @Execution(ExecutionMode.CONCURRENT)
    void aDeadTransducerReadsOneValue(String link) throws Exception {
        Ended heard = Shipped.lapwing("bench", "listen", over(link, "dead-transducer=BC1:0"), "--for", "3s", "--plain");

        assertThat(heard.exit()).as(heard.err()).isZero();
        // A live zero at 2,000 counts and 600 counts for a psi.
        assertThat(heard.out()).containsPattern("brake-cylinder@1 +BC1 +-3.33[0-9]* psi");
    }

    @ParameterizedTest
    @CsvSource({
        "serial, reset, the bench started anew",
        "own-broker, reset, the bench started anew",
        "serial, power-loss, the link to the bench is lost",
        "own-broker, power-loss, the link to the bench is lost",
    })
    @Execution(ExecutionMode.CONCURRENT)
    void aBenchThatIsAnotherOneOrGoneEndsTheListening(String link, String fault, String said) throws Exception {
        Ended heard = listened(link, fault, SOON_SECONDS)
                .orElseGet(() -> listened(link, fault, LATE_SECONDS).orElseThrow());

        assertThat(heard.exit()).as(heard.out() + heard.err()).isEqualTo(3);
        assertThat(heard.err()).contains(said);
    }

    /** Listens to a bench that a fault befalls; empty where the machine was too busy to listen before it came. */
    private Optional<Ended> listened(String link, String fault, int atSeconds) {
        try {
            long beganNanos = CLOCK.nanos();
            Path bench = over(link, fault + "@" + atSeconds + " s");
            Process listens = Shipped.start("bench", "listen", bench, "--for", "5min", "--plain");
            listens.inputReader().readLine();
            boolean before = CLOCK.nanos() - beganNanos < atSeconds * 1_000_000_000L;
            if (!before) {
                // Its process alone: what it has said stays to be read.
                listens.toHandle().destroy();
                stop();
            }
            Ended ended = Shipped.ended(listens);
            return before ? Optional.of(ended) : Optional.empty();
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static double medianMs(Ended shown) {
        Matcher median = MEDIAN.matcher(shown.out());
        assertThat(median.find()).as(shown.out() + shown.err()).isTrue();
        return Double.parseDouble(median.group(1));
    }

    private Path over(String link, String fault) throws IOException {
        if (link.equals("serial")) {
            return Shipped.served(folder, "serial: {device: " + serial(fault) + ", beat: 500 ms}");
        }
        int port = FreePort.next();
        served = Shipped.start("bench", "serve", "--own-broker=" + port, "--fault", fault);
        BufferedReader out = served.inputReader();
        String name = out.readLine();
        return Shipped.served(folder, "mqtt: {broker: '" + out.readLine() + "', name: " + name + ", beat: 500 ms}");
    }
}
