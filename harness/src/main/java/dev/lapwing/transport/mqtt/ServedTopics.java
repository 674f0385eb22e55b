package dev.lapwing.transport.mqtt;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.MqttMapping;
import dev.lapwing.transport.linked.BenchCarrier;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.paho.mqttv5.common.MqttSubscription;

/** A bench's end of the link over a broker. A broker that is gone is looked for again and again. */
public final class ServedTopics implements BenchCarrier {
    private static final long AGAIN_MS = 500;
    private static final int RETAIN_HANDLING_NONE = 2;
    /** A connection that did not last for so many looks was brief. */
    private static final int BRIEF_LOOKS = 6;
    /**
     * After so many brief ones on end another bench of this name must be there: each comes with the same client id and
     * throws the other out. The one that came last is the first to have had so many.
     */
    private static final int BRIEF_MAX = 3;

    private final String broker;
    private final Credentials credentials;
    private final MqttMapping mapping;
    private final CountDownLatch closed = new CountDownLatch(1);
    private final AtomicLong bad = new AtomicLong();
    private final Thread keeper = new Thread(this::keep, "lapwing served topics");
    private volatile BenchCard card;
    private volatile Hearing hearing = Hearing.NONE;
    private volatile Optional<Connection> connection = Optional.empty();

    private ServedTopics(String broker, BenchCard card, Credentials credentials) {
        this.broker = broker;
        this.card = card;
        this.credentials = credentials;
        this.mapping = new MqttMapping(card.name());
        keeper.setDaemon(true);
    }

    /** @throws IOException if the broker is not there or does not let this bench in */
    public static ServedTopics open(String broker, BenchCard card, Credentials credentials) throws IOException {
        ServedTopics topics = new ServedTopics(broker, card, credentials);
        try {
            topics.connect();
        } catch (IOException e) {
            topics.drop();
            throw e;
        }
        return topics;
    }

    private void connect() throws IOException {
        MqttSubscription to = new MqttSubscription(mapping.to(), 1);
        to.setRetainAsPublished(true);
        to.setRetainHandling(RETAIN_HANDLING_NONE);
        MqttSubscription here = new MqttSubscription(mapping.here(), 1);
        Connection opened = Connection.open(
                broker,
                "lapwing-bench-" + card.name(),
                credentials,
                Optional.of(mapping.willOfBench()),
                new MqttSubscription[] {to, here},
                new Ears());
        connection = Optional.of(opened);
        BenchCard shown;
        do {
            // It may start anew meanwhile.
            shown = card;
            opened.publishAndWait(mapping.here(shown));
        } while (shown != card);
    }

    private void keep() {
        boolean connected = true;
        int looks = 0;
        int brief = 0;
        try {
            while (!closed.await(AGAIN_MS, TimeUnit.MILLISECONDS)) {
                if (connection.isPresent()) {
                    looks++;
                    continue;
                }
                if (connected) {
                    brief = looks < BRIEF_LOOKS ? brief + 1 : 0;
                }
                if (brief == BRIEF_MAX) {
                    closed.countDown();
                    hearing.ended("again and again " + broker + " let it go at once; look whether another bench of this"
                            + " name is there");
                    return;
                }
                connected = connectedAgain();
                looks = 0;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private boolean connectedAgain() {
        try {
            connect();
            return true;
        } catch (IOException e) {
            drop();
            return false;
        }
    }

    private void drop() {
        Optional<Connection> lost = connection;
        connection = Optional.empty();
        lost.ifPresent(Connection::close);
    }

    @Override
    public void listen(Hearing to) {
        hearing = to;
        keeper.start();
    }

    @Override
    public Parcel parcel(BenchMessage message) {
        return new Published(mapping.of(message));
    }

    @Override
    public void startedAnew(BenchCard as) {
        card = as;
        send(mapping.here(as));
    }

    @Override
    public long bytesPerSecond() {
        return 0;
    }

    @Override
    public long badPieces() {
        return bad.get();
    }

    @Override
    public void close() {
        closed.countDown();
        connection.ifPresent(open -> {
            try {
                open.publishAndWait(mapping.willOfBench());
            } catch (IOException e) {
                // The broker is gone, and its last will for this bench says the same.
            }
        });
        try {
            keeper.join(1_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        drop();
    }

    private void send(MqttMapping.Publication publication) {
        connection.ifPresent(open -> {
            try {
                open.publish(publication);
            } catch (IOException e) {
                // Nothing is kept for later: what is gone is missed by its number, or asked for again.
            }
        });
    }

    private final class Published implements Parcel {
        private final MqttMapping.Publication publication;

        Published(MqttMapping.Publication publication) {
            this.publication = publication;
        }

        @Override
        public long lineNanos() {
            return 0;
        }

        @Override
        public void goesOut(double share) {
            // A message is there or not.
        }

        @Override
        public void send() {
            ServedTopics.this.send(publication);
        }
    }

    private final class Ears implements Connection.Hearing {
        @Override
        public void came(String topic, byte[] payload, boolean retained) {
            if (topic.equals(mapping.here())) {
                if (payload.length == 0 && closed.getCount() > 0) {
                    send(mapping.here(card));
                }
            } else if (!retained) {
                mapping.readOfHost(topic, payload, retained, card.maxLine())
                        .ifPresentOrElse(message -> hearing.came(message, 0), bad::incrementAndGet);
            }
        }

        @Override
        public void ended(String why) {
            connection = Optional.empty();
        }
    }
}
