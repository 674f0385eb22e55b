package dev.lapwing.link;

import java.util.Optional;

/**
 * Which message goes where on an MQTT broker, and how.
 *
 * @param bench name of the bench
 */
public record MqttMapping(String bench) {
    /** Longest keep-alive, in s. */
    public static final int KEEP_ALIVE_SECONDS_MAX = 5;

    /** Presences of all benches of a broker. */
    public static final String EVERY_HERE = topic("+", "here");

    private static final byte[] NOTHING = {};

    public MqttMapping {
        if (!Wire.isName(bench)) {
            throw new IllegalArgumentException("'" + bench + "' is no name of a bench");
        }
    }

    /** What is published. */
    public static final class Publication {
        private final String topic;
        private final byte[] payload;
        private final int qos;
        private final boolean retained;

        private Publication(String topic, byte[] payload, int qos, boolean retained) {
            this.topic = topic;
            this.payload = payload;
            this.qos = qos;
            this.retained = retained;
        }

        public String topic() {
            return topic;
        }

        /** Not to be changed. */
        public byte[] payload() {
            return payload;
        }

        /** 0 or 1. */
        public int qos() {
            return qos;
        }

        public boolean retained() {
            return retained;
        }
    }

    /** Host to bench. */
    public String to() {
        return topic("to");
    }

    /** Bench to host, all but samples. */
    public String from() {
        return topic("from");
    }

    /** Bench to host, samples. */
    public String samples() {
        return topic("samples");
    }

    /** The bench's presence, retained. */
    public String here() {
        return topic("here");
    }

    /** A host's message. */
    public Publication of(HostMessage message) {
        int qos = message instanceof HostMessage.Beat ? 0 : 1;
        return new Publication(to(), CommandWriter.json(message), qos, false);
    }

    /** The host's last will: makes the bench safe when the broker loses the host. */
    public Publication willOfHost(String session) {
        return of(new HostMessage.Safe(session, 0));
    }

    /** A bench's message. */
    public Publication of(BenchMessage message) {
        if (message instanceof Samples samples) {
            byte[] payload = samples.dense() ? MessageWriter.dense(samples) : MessageWriter.json(samples);
            return new Publication(samples(), payload, 0, false);
        }
        return new Publication(from(), MessageWriter.json(message), 1, false);
    }

    /** The bench's presence; published on connecting, at each new boot, and again when it is seen emptied. */
    public Publication here(BenchCard card) {
        return new Publication(here(), MessageWriter.here(card), 1, true);
    }

    /** The bench's last will: an empty presence. */
    public Publication willOfBench() {
        return new Publication(here(), NOTHING, 1, true);
    }

    /** Who says on that topic that it is there; empty if nobody does, or says to be another. */
    public static Optional<BenchCard> readHere(String topic, byte[] payload) {
        return payload.length > Wire.BENCH_BYTES_MAX
                ? Optional.empty()
                : MessageReader.here(payload).filter(card -> topic.equals(new MqttMapping(card.name()).here()));
    }

    /** What a host reads from {@link #from()} or {@link #samples()}; empty for anything else. */
    public Optional<BenchMessage> read(String topic, byte[] payload) {
        if (payload.length > Wire.BENCH_BYTES_MAX) {
            return Optional.empty();
        }
        if (topic.equals(from())) {
            return MessageReader.benchMessage(payload).filter(message -> !(message instanceof Samples));
        }
        if (topic.equals(samples())) {
            Optional<BenchMessage> message =
                    isMap(payload) ? MessageReader.denseSamples(payload) : MessageReader.benchMessage(payload);
            return message.filter(Samples.class::isInstance);
        }
        return Optional.empty();
    }

    /** What a bench reads from {@link #to()}; empty for what is no message, is retained, too long or came elsewhere. */
    public Optional<HostMessage> readOfHost(String topic, byte[] payload, boolean retained, int maxLine) {
        boolean taken = topic.equals(to()) && !retained && payload.length + Wire.LINE_EXTRA_BYTES <= maxLine;
        return taken ? CommandReader.hostMessage(payload) : Optional.empty();
    }

    private String topic(String last) {
        return topic(bench, last);
    }

    private static String topic(String bench, String last) {
        return "bench-link/" + Wire.LINK + "/" + bench + "/" + last;
    }

    /** Source: RFC 8949, 3.1: major type 5, a map, has the upper three bits 101. No JSON text begins so. */
    private static boolean isMap(byte[] payload) {
        return payload.length > 0 && (payload[0] & 0xe0) == 0xa0;
    }
}
