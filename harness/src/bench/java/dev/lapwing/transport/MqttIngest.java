package dev.lapwing.transport;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.CommandReader;
import dev.lapwing.link.MqttMapping;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/** How many samples a second the harness takes from a broker, beside a bare subscriber of the same messages. */
final class MqttIngest {
    /** How far the publisher may be ahead of what was taken, in messages: a broker keeps no more than 1000. */
    private static final int AHEAD_MAX = 400;

    private static final long FULL_NANOS = 20_000;
    private static final int ROUNDS = 3;
    private static final MqttMapping MAPPING = new MqttMapping(Pressures.NAME);

    private MqttIngest() {}

    /** One line of text. */
    static String of(String broker, int messages) throws Exception {
        double[] bare = new double[ROUNDS];
        double[] ours = new double[ROUNDS];
        for (int i = 0; i < ROUNDS; i++) {
            bare[i] = bare(broker, messages);
            ours[i] = ours(broker, messages);
        }
        double best = Arrays.stream(bare).max().orElseThrow();
        double own = Arrays.stream(ours).max().orElseThrow();
        return String.format(
                Locale.ROOT,
                "bare Paho subscriber %.2f million samples/s; the harness %.2f million samples/s, %.0f %% of it",
                best * 1e-6,
                own * 1e-6,
                100 * own / best);
    }

    private static double bare(String broker, int messages) throws Exception {
        Flood flood = new Flood();
        AtomicInteger taken = new AtomicInteger();
        CountDownLatch all = new CountDownLatch(1);
        long[] nanos = new long[2];
        MqttAsyncClient subscriber = client(broker, "bare-subscriber", (topic, message) -> {
            nanos[1] = System.nanoTime();
            int number = taken.incrementAndGet();
            nanos[0] = number == 1 ? nanos[1] : nanos[0];
            if (number == messages) {
                all.countDown();
            }
        });
        subscriber.subscribe(new MqttSubscription(MAPPING.samples(), 0)).waitForCompletion();
        MqttAsyncClient publisher = client(broker, "bare-publisher", (topic, message) -> {});
        publish(publisher, flood, messages, taken);
        all.await();
        publisher.disconnect().waitForCompletion();
        subscriber.disconnect().waitForCompletion();
        return rate(messages, (nanos[1] - nanos[0]) * 1e-9);
    }

    private static double ours(String broker, int messages) throws Exception {
        Flood flood = new Flood();
        AtomicInteger taken = new AtomicInteger();
        CountDownLatch ordered = new CountDownLatch(1);
        MqttAsyncClient[] bench = new MqttAsyncClient[1];
        bench[0] = client(broker, "flooding-bench", (topic, message) -> {
            CommandReader.hostMessage(message.getPayload())
                    .flatMap(flood::answer)
                    .ifPresent(answer -> send(bench[0], answer));
            if (flood.ordered()) {
                ordered.countDown();
            }
        });
        bench[0].subscribe(new MqttSubscription(MAPPING.to(), 1)).waitForCompletion();
        LinkChoice choice = new LinkChoice.Mqtt(broker, Pressures.NAME, 300, 1);
        CompletableFuture<Void> pouring = CompletableFuture.runAsync(() -> {
            try {
                ordered.await();
                send(bench[0], Flood.state());
                publish(bench[0], flood, messages, taken);
            } catch (InterruptedException | MqttException e) {
                throw new IllegalStateException(e);
            }
        });
        double seconds = new Taken(messages, taken).seconds(Pressures.file(choice, 200));
        pouring.join();
        bench[0].disconnect().waitForCompletion();
        return rate(messages, seconds);
    }

    private static double rate(int messages, double seconds) {
        return (double) messages * Flood.ROWS * Pressures.CHANNELS / seconds;
    }

    private static void publish(MqttAsyncClient publisher, Flood flood, int messages, AtomicInteger taken)
            throws MqttException {
        byte[][] payloads = new byte[messages][];
        for (int i = 0; i < messages; i++) {
            payloads[i] = MAPPING.of(flood.samples(i + 1)).payload();
        }
        for (int i = 0; i < messages; i++) {
            while (i - taken.get() > AHEAD_MAX) {
                LockSupport.parkNanos(FULL_NANOS);
            }
            publisher.publish(MAPPING.samples(), payloads[i], 0, false);
        }
    }

    private static void send(MqttAsyncClient client, BenchMessage message) {
        MqttMapping.Publication publication = MAPPING.of(message);
        try {
            client.publish(publication.topic(), publication.payload(), publication.qos(), false);
        } catch (MqttException e) {
            throw new IllegalStateException(e);
        }
    }

    private static MqttAsyncClient client(String broker, String id, Hears hears) throws MqttException {
        MqttAsyncClient client = new MqttAsyncClient(broker, id, new MemoryPersistence());
        client.setCallback(hears);
        MqttConnectionOptions options = new MqttConnectionOptions();
        options.setMaxReconnectDelay(0);
        options.setAutomaticReconnect(false);
        client.connect(options).waitForCompletion();
        return client;
    }

    /** Hears messages and nothing else. */
    private interface Hears extends MqttCallback {
        @Override
        void messageArrived(String topic, MqttMessage message);

        @Override
        default void disconnected(MqttDisconnectResponse response) {}

        @Override
        default void mqttErrorOccurred(MqttException exception) {}

        @Override
        default void deliveryComplete(IMqttToken token) {}

        @Override
        default void connectComplete(boolean reconnect, String uri) {}

        @Override
        default void authPacketArrived(int reasonCode, MqttProperties properties) {}
    }
}
