package dev.lapwing.transport.mqtt;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.MqttMapping;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.common.MqttSubscription;

/** Which benches say on a broker that they are there. It proves no life: each is still to be looked at. */
public final class BrokerLook {
    /** What is retained comes at once; a broker far away takes a moment. */
    private static final long HEARD_MS = 1_000;

    private BrokerLook() {}

    /**
     * Listens for a second.
     *
     * @param token names this look, and no other
     * @return names, in their order
     * @throws BenchFailure if there is no such broker, or it does not let this host in
     */
    public static List<String> at(String broker, Credentials credentials, String token) throws BenchFailure {
        Map<String, Boolean> there = new ConcurrentSkipListMap<>();
        MqttSubscription[] topics = {new MqttSubscription(MqttMapping.EVERY_HERE, 1)};
        Connection.Hearing hearing = into(there);
        try {
            Connection connection =
                    Connection.open(broker, "lapwing-look-" + token, credentials, Optional.empty(), topics, hearing);
            try {
                new CountDownLatch(1).await(HEARD_MS, TimeUnit.MILLISECONDS);
            } finally {
                connection.close();
            }
            return List.copyOf(there.keySet());
        } catch (IOException e) {
            throw new BenchFailure(e.getMessage(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new BenchFailure("stopped", e);
        }
    }

    private static Connection.Hearing into(Map<String, Boolean> there) {
        return new Connection.Hearing() {
            @Override
            public void came(String topic, byte[] payload, boolean retained) {
                MqttMapping.readHere(topic, payload).map(BenchCard::name).ifPresent(name -> there.put(name, true));
            }

            @Override
            public void ended(String why) {
                // What was heard until then is told.
            }
        };
    }
}
