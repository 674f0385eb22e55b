package dev.lapwing.transport.mqtt;

import static dev.lapwing.Patience.await;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.NeedsTools;
import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.Wire;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.run.Progress;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.AtWork;
import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.TimedFault;
import dev.lapwing.transport.linked.WatchedBench;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The simulated bench behind a real broker: both ends of the link with their threads, in one process. */
@NeedsTools({"mosquitto"})
class MqttBenchIT {
    private static final double SPEED = 2;
    /** Longer than a real bench may offer: nothing is live here, and a busy machine may stand still for a while. */
    private static final int BEAT_MS = 1_500;

    private static final double BEAT_TIMES = (double) BEAT_MS / Wire.BEAT_MS_MAX;
    private static final Pattern BOOT = Pattern.compile("\"boot\":\"([0-9a-f]{8})\"");
    private static final MonotonicClock CLOCK = MonotonicClock.system();

    @TempDir
    private Path folder;

    private Mosquitto broker;
    private BenchCard card;
    private WatchedBench served;
    private BenchFile file;

    @BeforeEach
    void serve() throws BenchFailure, IOException {
        broker = Mosquitto.start(folder);
        SimulatedTerminals terminals = FarCab.terminals();
        card = terminals.card(FarCab.token(1), BEAT_TIMES * SPEED);
        ServedTopics topics = ServedTopics.open(broker.url(), card, Credentials.NONE);
        served = WatchedBench.serve(card, terminals, topics, SPEED);
        file = FarCab.reached(new LinkChoice.Mqtt(broker.url(), card.name(), BEAT_MS, SPEED));
    }

    @AfterEach
    void nothingIsLeft() throws InterruptedException {
        served.close();
        broker.kill();
        await("threads of the link end")
                .untilAsserted(() -> assertThat(threads()).isEmpty());
    }

    private static List<String> threads() {
        return Thread.getAllStackTraces().keySet().stream()
                .map(Thread::getName)
                .filter(name -> name.startsWith("lapwing") || name.startsWith("MQTT"))
                .toList();
    }

    private Bench open(long session) throws BenchFailure {
        LinkChoice.Mqtt link = (LinkChoice.Mqtt) file.link();
        return MqttBench.open(file, link, Credentials.NONE, FarCab.host(session), CLOCK);
    }

    @Test
    void aSequenceOverABrokerAgreesWithTheSimulatedRun() throws BenchFailure {
        try (Bench bench = open(1)) {
            RunRecord linked = FarCab.passesAsSimulated(bench, file, folder);

            assertThat(linked.summary().run().simulated()).isTrue();
        }
    }

    @Test
    void aBrokerKilledMidRunEndsInAnErrorASafeBenchAndAReadableRecordAndComesBack() throws Exception {
        Progress kills = new Progress() {
            @Override
            public void opened(PlannedExpectation expectation, long atUs) {
                try {
                    broker.kill();
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            }
        };
        try (Bench bench = open(2)) {
            RunRecord record = FarCab.on(bench, file, folder.resolve("killed"), kills);

            assertThat(record.verdict()).isEqualTo(Verdict.ERROR);
            assertThat(record.course().troubles().get(0).why()).contains("link to the bench is lost");
            served.endsSafe();
            assertThat(RunRecord.open(folder.resolve("killed/far-cab")).samples())
                    .isPositive();
        }
        broker.restart();
        await("the bench finds its broker again")
                .ignoreExceptionsInstanceOf(BenchFailure.class)
                .until(() -> {
                    try (Bench again = open(3)) {
                        return again.identity().boot().equals(card.boot());
                    }
                });
    }

    @Test
    void whatAStrangerSaysOrLeavesBehindArmsNothing() throws Exception {
        MqttClient stranger = new MqttClient(broker.url(), "stranger", new MemoryPersistence());
        stranger.connect();
        try {
            for (String text : List.of("", "{", "{\"m\":\"arm\",\"id\":9,\"session\":\"00000000\"}")) {
                MqttMessage message = new MqttMessage(text.getBytes(UTF_8));
                message.setRetained(true);
                stranger.publish("bench-link/1/" + card.name() + "/to", message);
                stranger.publish("bench-link/1/" + card.name() + "/from", message);
            }
            try (Bench bench = open(4)) {
                bench.arm();
                AtWork.at(bench, () -> {
                    stranger.publish(
                            "bench-link/1/" + card.name() + "/to",
                            new MqttMessage("{\"m\":\"safe\",\"id\":1,\"session\":\"0000000g\"}".getBytes(UTF_8)));
                    // Anybody may make it safe.
                    served.endsSafe("host");
                });
            }
        } finally {
            stranger.disconnect();
            stranger.close();
        }
    }

    @Test
    void aBrokerThatIsNotThereIsNamed() {
        LinkChoice.Mqtt gone = new LinkChoice.Mqtt("tcp://127.0.0.1:9", card.name(), BEAT_MS, 1);

        assertThatThrownBy(() -> MqttBench.open(FarCab.reached(gone), gone, Credentials.NONE, FarCab.host(5), CLOCK))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("tcp://127.0.0.1:9");
    }

    @Test
    void aBenchThatIsNotThereDoesNotAnswer() {
        LinkChoice.Mqtt other = new LinkChoice.Mqtt(broker.url(), "nobody", BEAT_MS, SPEED);

        assertThatThrownBy(() -> MqttBench.open(FarCab.reached(other), other, Credentials.NONE, FarCab.host(6), CLOCK))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("no bench 'nobody' answers on " + broker.url())
                .hasMessageContaining("bench show --mqtt " + broker.url());
    }

    @Test
    void whoIsThereIsHeardWithoutItsName() throws Exception {
        await("it is heard")
                .until(() -> BrokerLook.at(broker.url(), Credentials.NONE, FarCab.token(7))
                        .equals(List.of(card.name())));
        served.close();

        assertThat(BrokerLook.at(broker.url(), Credentials.NONE, FarCab.token(8)))
                .isEmpty();
    }

    /** Whoever looks at what is retained is not told of a boot that is over. */
    @Test
    void aBenchThatStartsAnewShowsItsNewBoot() throws Exception {
        served.close();
        Set<String> boots = new ConcurrentSkipListSet<>();
        ServedTopics topics = ServedTopics.open(broker.url(), card, Credentials.NONE);
        TimedFault reset = new TimedFault(new BenchFault.Reset(), 0);
        Connection looks =
                hears("here", payload -> BOOT.matcher(payload).results().forEach(found -> boots.add(found.group(1))));
        try (WatchedBench anew = WatchedBench.serve(card, FarCab.terminals(), topics, SPEED, List.of(reset))) {
            await("it shows another boot").until(() -> boots.size() == 2);
            try (Bench bench = open(13)) {
                assertThat(boots)
                        .containsExactlyInAnyOrder(card.boot(), bench.identity().boot());
            }
            assertThat(anew.armed()).isFalse();
        } finally {
            looks.close();
        }
    }

    private Connection hears(String topic, Consumer<String> payloads) throws IOException {
        MqttSubscription[] topics = {new MqttSubscription("bench-link/1/" + card.name() + "/" + topic, 1)};
        return Connection.open(
                broker.url(), "looks", Credentials.NONE, Optional.empty(), topics, new Connection.Hearing() {
                    @Override
                    public void came(String on, byte[] payload, boolean retained) {
                        payloads.accept(new String(payload, UTF_8));
                    }

                    @Override
                    public void ended(String why) {}
                });
    }

    @Test
    void aBenchThatAnotherHostHasArmedSaysSo() throws Exception {
        try (Bench bench = open(9)) {
            bench.arm();
            AtWork.at(bench, this::nobodyElseIsLetIn);
        }
    }

    private void nobodyElseIsLetIn() {
        assertThatThrownBy(() -> open(10))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("lets nobody in: another host has armed it");
        assertThatThrownBy(() ->
                        MqttBench.look((LinkChoice.Mqtt) file.link(), Credentials.NONE, FarCab.host(11), CLOCK, 1))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("lets nobody in: another host has armed it");
    }

    /** The limits of length hold on a broker too: what is too long cannot be read, whatever it says. */
    @Test
    void aMessageThatIsTooLongIsDropped() throws Exception {
        MqttClient stranger = new MqttClient(broker.url(), "stranger", new MemoryPersistence());
        stranger.connect();
        try (Bench bench = open(12)) {
            bench.arm();
            String safe = "{\"m\":\"safe\",\"id\":1,\"session\":\"00000000\",\"why\":\"" + "x".repeat(20_000) + "\"}";
            stranger.publish("bench-link/1/" + card.name() + "/to", new MqttMessage(safe.getBytes(UTF_8)));
            // Who comes after it on the same topic is answered once it was dropped, and finds the bench armed.
            AtWork.at(bench, this::nobodyElseIsLetIn);
            assertThat(served.armed()).isTrue();
        } finally {
            stranger.disconnect();
            stranger.close();
        }
    }

    /** They would throw each other out for ever, and nobody could tell what he talks to. */
    @Test
    void aBenchOfANameThatIsTakenGivesUpAndSaysSo() throws Exception {
        SimulatedTerminals terminals = FarCab.terminals();
        BenchCard same = terminals.card(FarCab.token(2), SPEED);
        await("the first one has stood for a while")
                .pollDelay(Duration.ofSeconds(4))
                .until(() -> true);
        ServedTopics topics = ServedTopics.open(broker.url(), same, Credentials.NONE);
        try (WatchedBench second = WatchedBench.serve(same, terminals, topics, SPEED)) {
            await("the second gives up").until(() -> second.served().ended().isPresent());

            assertThat(second.served().ended().get()).contains("look whether another bench of this name is there");
            await("the first stays")
                    .until(() -> BrokerLook.at(broker.url(), Credentials.NONE, FarCab.token(9))
                            .equals(List.of(card.name())));
            assertThat(served.served().ended()).isEmpty();
        }
    }
}
