package dev.lapwing.transport.mqtt.broker;

import dev.lapwing.transport.mqtt.FirstTryBroker;
import java.io.IOException;
import org.apache.activemq.artemis.core.config.impl.ConfigurationImpl;
import org.apache.activemq.artemis.core.server.embedded.EmbeddedActiveMQ;

/** Apache ActiveMQ Artemis with nothing but MQTT, nothing on disk, for programs of this machine. */
public final class ArtemisBroker implements FirstTryBroker {
    private final EmbeddedActiveMQ broker = new EmbeddedActiveMQ();

    @Override
    public void start(int port) throws IOException {
        try {
            broker.setConfiguration(new ConfigurationImpl()
                    .setName("lapwing")
                    .setPersistenceEnabled(false)
                    .setSecurityEnabled(false)
                    .setJMXManagementEnabled(false)
                    .addAcceptorConfiguration(
                            "mqtt", "tcp://127.0.0.1:" + port + "?protocols=MQTT;tcpNoDelay=true;useEpoll=false"));
            broker.start();
        } catch (Exception e) {
            close();
            throw new IOException("the broker cannot be started at port " + port + ": " + e.getMessage(), e);
        }
        if (!broker.getActiveMQServer().isActive()
                || broker.getActiveMQServer().getRemotingService().getAcceptor("mqtt") == null) {
            close();
            throw new IOException("the broker cannot be started at port " + port + "; another program may have it");
        }
    }

    @Override
    public void close() {
        try {
            broker.stop();
        } catch (Exception e) {
            // It ends with this process at the latest.
        }
    }
}
