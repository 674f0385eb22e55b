package dev.lapwing.transport.mqtt;

import dev.lapwing.link.MqttMapping;
import dev.lapwing.link.MqttMapping.Publication;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.logging.Level;
import java.util.logging.Logger;
import javax.net.ssl.SSLSocketFactory;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttClientException;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/**
 * One connection to a broker, from connecting to its loss. It is never taken up again: a new one begins afresh, so that
 * nothing of the old one is sent late.
 */
final class Connection implements AutoCloseable {
    private static final long PATIENCE_MS = 5_000;
    /** With TLS, and on a machine that has other things to do, connecting takes its time. */
    private static final int CONNECT_SECONDS = 15;
    /** So often a message is offered again, 1 ms apart, while too many before it are unacknowledged. */
    private static final int OFFERS_MAX = 300;

    private static final int FAILED_FROM = 0x80;

    /** What the library logs of lost connections is told to the user in our words. Held, so that its level stays. */
    private static final Logger LIBRARY = Logger.getLogger("org.eclipse.paho.mqttv5");

    private final MqttAsyncClient client;
    private final Hearing hearing;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final CountDownLatch never = new CountDownLatch(1);

    /** Hears what comes, on the connection's own thread. */
    interface Hearing {
        void came(String topic, byte[] payload, boolean retained);

        /** The connection is lost, told once, and not after closing it. */
        void ended(String why);
    }

    private Connection(MqttAsyncClient client, Hearing hearing) {
        this.client = client;
        this.hearing = hearing;
    }

    /**
     * Connects and listens to some topics.
     *
     * @param will published by the broker when it loses this client; empty for none
     * @throws IOException if the broker is not there, does not let this client in, or takes too long
     */
    static Connection open(
            String broker,
            String clientId,
            Credentials credentials,
            Optional<Publication> will,
            MqttSubscription[] topics,
            Hearing hearing)
            throws IOException {
        try {
            LIBRARY.setLevel(Level.OFF);
            MqttAsyncClient client = new MqttAsyncClient(broker, clientId, new MemoryPersistence());
            Connection connection = new Connection(client, hearing);
            connection.connect(options(broker, credentials, will), topics);
            return connection;
        } catch (MqttException | IllegalArgumentException e) {
            throw new IOException("broker " + broker + ": " + NotLetIn.words(e), e);
        }
    }

    private void connect(MqttConnectionOptions options, MqttSubscription[] topics) throws MqttException, IOException {
        client.setCallback(new Callback());
        try {
            client.connect(options).waitForCompletion(TimeUnit.SECONDS.toMillis(CONNECT_SECONDS));
            IMqttToken subscribed = client.subscribe(topics);
            subscribed.waitForCompletion(PATIENCE_MS);
            for (int code : subscribed.getReasonCodes()) {
                if (code >= FAILED_FROM) {
                    throw new IOException("the broker does not let this client listen; look at its access rules");
                }
            }
        } catch (MqttException | IOException e) {
            close(0);
            throw e;
        }
    }

    private static MqttConnectionOptions options(String broker, Credentials credentials, Optional<Publication> will)
            throws IOException {
        MqttConnectionOptions options = new MqttConnectionOptions();
        options.setCleanStart(true);
        options.setSessionExpiryInterval(0L);
        options.setAutomaticReconnect(false);
        options.setKeepAliveInterval(MqttMapping.KEEP_ALIVE_SECONDS_MAX);
        options.setConnectionTimeout(CONNECT_SECONDS);
        if (broker.startsWith("ssl:")) {
            options.setSocketFactory(new PromptTlsSockets(
                    credentials.authority().isPresent()
                            ? Authority.sockets(credentials.authority().get())
                            : (SSLSocketFactory) SSLSocketFactory.getDefault()));
            options.setHttpsHostnameVerificationEnabled(true);
        } else {
            options.setSocketFactory(new PromptSockets());
        }
        will.ifPresent(said -> {
            MqttMessage last = message(said);
            last.setProperties(new MqttProperties());
            options.setWill(said.topic(), last);
        });
        credentials.user().ifPresent(options::setUserName);
        credentials.password().ifPresent(word -> options.setPassword(word.getBytes(StandardCharsets.UTF_8)));
        return options;
    }

    private static MqttMessage message(Publication publication) {
        MqttMessage message = new MqttMessage(publication.payload());
        message.setQos(publication.qos());
        message.setRetained(publication.retained());
        return message;
    }

    /** Sends; waits a moment where the broker has not acknowledged enough of what went before. */
    IMqttToken publish(Publication publication) throws IOException {
        MqttMessage message = message(publication);
        for (int offer = 0; ; offer++) {
            try {
                return client.publish(publication.topic(), message);
            } catch (MqttException e) {
                boolean crowded = e.getReasonCode() == MqttClientException.REASON_CODE_MAX_INFLIGHT
                        || e.getReasonCode() == MqttClientException.REASON_CODE_NO_MESSAGE_IDS_AVAILABLE;
                if (!crowded || offer == OFFERS_MAX || closed.get()) {
                    throw new IOException("the broker takes nothing any more: " + said(e), e);
                }
                pause();
            }
        }
    }

    /** Sends, and waits until it has arrived at the broker. */
    void publishAndWait(Publication publication) throws IOException {
        try {
            publish(publication).waitForCompletion(PATIENCE_MS);
        } catch (MqttException e) {
            throw new IOException("the broker does not acknowledge: " + said(e), e);
        }
    }

    private void pause() throws IOException {
        try {
            never.await(1, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("closed", e);
        }
    }

    private static String said(Exception e) {
        Throwable cause = e.getCause() == null ? e : e.getCause();
        return String.valueOf(cause.getMessage());
    }

    @Override
    public void close() {
        close(PATIENCE_MS / 5);
    }

    private void close(long patienceMs) {
        if (!closed.compareAndSet(false, true)) {
            return;
        }
        try {
            if (client.isConnected()) {
                client.disconnectForcibly(patienceMs, PATIENCE_MS / 5, true);
            }
        } catch (MqttException e) {
            // It was lost before: there is nothing to take leave of.
        }
        try {
            client.close(true);
        } catch (MqttException e) {
            // Closed by its loss.
        }
    }

    private final class Callback implements MqttCallback {
        @Override
        public void disconnected(MqttDisconnectResponse response) {
            if (!closed.get()) {
                hearing.ended("the broker is gone, or let go of this connection");
            }
        }

        @Override
        public void mqttErrorOccurred(MqttException exception) {}

        @Override
        public void messageArrived(String topic, MqttMessage message) {
            hearing.came(topic, message.getPayload(), message.isRetained());
        }

        @Override
        public void deliveryComplete(IMqttToken token) {}

        @Override
        public void connectComplete(boolean reconnect, String serverUri) {}

        @Override
        public void authPacketArrived(int reasonCode, MqttProperties properties) {}
    }
}
