package dev.lapwing.campaign;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.BenchCard;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.HostCarrier;
import dev.lapwing.transport.linked.SpoiltCarrier;
import dev.lapwing.transport.mqtt.Credentials;
import dev.lapwing.transport.mqtt.HostTopicsEnd;
import dev.lapwing.transport.mqtt.Mosquitto;
import dev.lapwing.transport.mqtt.ServedTopics;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;

/** A broker of its own, which can be killed, halted, and used by a stranger. */
final class BrokerReach implements Reach {
    private static final long STRANGER_EVERY_NANOS = 20_000_000L;
    private static final int NOISE_BYTES_MAX = 200;

    /** What is well said, but by nobody who has anything to say here. */
    private static final List<String> OF_HOSTS = List.of(
            "{\"m\":\"hello\",\"id\":1,\"session\":\"5712a9e0\",\"link\":1,\"host\":\"a stranger\"}",
            "{\"m\":\"beat\",\"session\":\"5712a9e0\",\"k\":9007199254740990,\"seen-us\":1}",
            "{\"m\":\"stream\",\"id\":2,\"session\":\"5712a9e0\",\"name\":\"quick\",\"points\":[]}",
            "{\"m\":\"set\",\"id\":3,\"session\":\"5712a9e0\",\"boot\":\"00000000\",\"until-us\":1,"
                    + "\"points\":{\"W7\":1}}");

    private static final List<String> OF_BENCHES = List.of(
            "{\"m\":\"safe\",\"n\":1,\"session\":\"5712a9e0\",\"t-us\":1,\"why\":\"host\"}",
            "{\"m\":\"pong\",\"id\":9,\"session\":\"5712a9e0\",\"next\":1000000,\"now-us\":1}",
            "{\"m\":\"refused\",\"id\":9,\"session\":\"5712a9e0\",\"why\":\"stale\"}",
            "{\"m\":\"edge\",\"n\":2,\"session\":\"5712a9e0\",\"t-us\":1,\"point\":\"D1\",\"to\":1}");

    private final Mosquitto broker;
    private final String bench;
    private final BenchCarrier topics;

    BrokerReach(Path folder, BenchCard card, DrawnFault fault, long seed) throws IOException {
        broker = Mosquitto.start(folder);
        bench = card.name();
        topics = SpoiltCarrier.of(served(card), fault.timed(), seed, 1, MonotonicClock.system());
    }

    private ServedTopics served(BenchCard card) throws IOException {
        try {
            return ServedTopics.open(broker.url(), card, Credentials.NONE);
        } catch (IOException e) {
            stop();
            throw e;
        }
    }

    @Override
    public LinkChoice choice() {
        return new LinkChoice.Mqtt(broker.url(), bench, BEAT_MS, 1);
    }

    @Override
    public String inBenchFile() {
        return "link: {mqtt: {broker: \"" + broker.url() + "\", name: " + bench + ", beat: " + BEAT_MS + " ms}}\n";
    }

    @Override
    public BenchCarrier bench() {
        return topics;
    }

    @Override
    public HostCarrier host(String session) throws BenchFailure {
        return HostTopicsEnd.open(broker.url(), bench, session);
    }

    @Override
    public void befall(DrawnFault fault, SplittableRandom random) throws IOException, InterruptedException {
        switch (fault.kind()) {
            case BROKER_RESTARTED -> {
                broker.kill();
                TimeUnit.NANOSECONDS.sleep(fault.forNanos());
                broker.restart();
            }
            case BROKER_HALTED -> {
                broker.halt();
                try {
                    TimeUnit.NANOSECONDS.sleep(fault.forNanos());
                } finally {
                    broker.resume();
                }
            }
            case STRANGER_ON_THE_TOPICS -> stranger(fault.forNanos(), random);
            default -> {}
        }
    }

    private void stranger(long forNanos, SplittableRandom random) throws IOException, InterruptedException {
        try {
            MqttClient client = new MqttClient(broker.url(), "stranger", new MemoryPersistence());
            client.connect();
            for (long said = 0; said < forNanos; said += STRANGER_EVERY_NANOS) {
                boolean toBench = random.nextBoolean();
                MqttMessage message = new MqttMessage(words(toBench ? OF_HOSTS : OF_BENCHES, random));
                message.setQos(random.nextInt(2));
                message.setRetained(random.nextInt(4) == 0);
                String topic = toBench ? "to" : random.nextBoolean() ? "from" : "samples";
                client.publish("bench-link/1/" + bench + "/" + topic, message);
                TimeUnit.NANOSECONDS.sleep(STRANGER_EVERY_NANOS);
            }
            client.disconnect();
            client.close();
        } catch (MqttException e) {
            throw new IOException(e);
        }
    }

    private static byte[] words(List<String> sayings, SplittableRandom random) {
        int saying = random.nextInt(sayings.size() + 1);
        if (saying < sayings.size()) {
            return sayings.get(saying).getBytes(UTF_8);
        }
        byte[] noise = new byte[random.nextInt(NOISE_BYTES_MAX)];
        random.nextBytes(noise);
        return noise;
    }

    @Override
    public void close() {
        topics.close();
        stop();
    }

    private void stop() {
        try {
            broker.kill();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
