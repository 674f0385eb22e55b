package dev.lapwing.transport.mqtt;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.MqttMapping;
import dev.lapwing.transport.linked.HostCarrier;
import java.io.IOException;
import java.util.Optional;
import org.eclipse.paho.mqttv5.common.MqttSubscription;

/** A host's end of the link over a broker; its last will makes the bench safe when the broker loses it. */
final class HostTopics implements HostCarrier {
    private final String broker;
    private final MqttMapping mapping;
    private final Connection connection;
    private final Ears ears;

    private HostTopics(String broker, MqttMapping mapping, Connection connection, Ears ears) {
        this.broker = broker;
        this.mapping = mapping;
        this.connection = connection;
        this.ears = ears;
    }

    static HostTopics open(String broker, String bench, Credentials credentials, String session) throws BenchFailure {
        MqttMapping mapping = new MqttMapping(bench);
        Ears ears = new Ears(mapping);
        MqttSubscription[] topics = {
            new MqttSubscription(mapping.from(), 1), new MqttSubscription(mapping.samples(), 0),
        };
        try {
            String client = "lapwing-host-" + bench + "-" + session;
            Connection connection = Connection.open(
                    broker, client, credentials, Optional.of(mapping.willOfHost(session)), topics, ears);
            return new HostTopics(broker, mapping, connection, ears);
        } catch (IOException e) {
            throw new BenchFailure(e.getMessage(), e);
        }
    }

    @Override
    public void listen(Hearing to) {
        ears.hearing = to;
    }

    @Override
    public void send(HostMessage message) throws IOException {
        connection.publish(mapping.of(message));
    }

    @Override
    public long lineNanos(int bytes) {
        return 0;
    }

    @Override
    public String whyNobody() {
        return "no bench '" + mapping.bench() + "' answers on " + broker + "; look at its power and its name: 'lapwing"
                + " bench show --mqtt " + broker + "' tells which benches are there";
    }

    @Override
    public void close() {
        connection.close();
    }

    /** What comes before anybody listens is of another session. */
    private static final class Ears implements Connection.Hearing {
        private final MqttMapping mapping;
        private volatile Hearing hearing = Hearing.NONE;

        Ears(MqttMapping mapping) {
            this.mapping = mapping;
        }

        @Override
        public void came(String topic, byte[] payload, boolean retained) {
            mapping.read(topic, payload).ifPresent(message -> hearing.came(message));
        }

        @Override
        public void ended(String why) {
            hearing.ended(why);
        }
    }
}
