package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.MqttMapping.Publication;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Topics, quality of service and payloads as the contract's table has them. */
class MqttMappingTest {
    private static final String S = "5be1c07d";
    private static final Samples SAMPLES = new Samples(S, 3, "a", 2, 10, 5, List.of("P1"), new int[] {1, 2});
    private final MqttMapping mapping = new MqttMapping("bay-2");

    @Test
    void everyMessageHasItsTopicAndQuality() {
        check("to", 1, false, mapping.of(new HostMessage.Ping(S, 1)));
        check("to", 0, false, mapping.of(new HostMessage.Beat(S, 1, 2)));
        check("to", 1, false, mapping.willOfHost(S));
        check("from", 1, false, mapping.of(new BenchMessage.Queued(S, 1)));
        check("from", 1, false, mapping.of(new BenchMessage.Edge(S, 1, 2, "D1", true)));
        check("samples", 0, false, mapping.of(SAMPLES));
        check("samples", 0, false, mapping.of(SAMPLES.asDense()));
        check("here", 1, true, mapping.here(FakePoints.card()));
        check("here", 1, true, mapping.willOfBench());
    }

    @Test
    void theHostsLastWillIsASafe() {
        assertEquals(
                "{\"m\":\"safe\",\"id\":0,\"session\":\"5be1c07d\"}",
                new String(mapping.willOfHost(S).payload(), UTF_8));
        assertEquals(0, mapping.willOfBench().payload().length);
    }

    @Test
    void whatIsPublishedIsRead() {
        for (Samples one : List.of(SAMPLES, SAMPLES.asDense())) {
            Publication samples = mapping.of(one);
            assertEquals(Optional.of(one), mapping.read(samples.topic(), samples.payload()));
        }
        BenchMessage pong = new BenchMessage.Pong(S, 1, 2, 3);
        assertEquals(Optional.of(pong), mapping.read(mapping.from(), MessageWriter.json(pong)));
    }

    @Test
    void whatStandsOnTheWrongTopicOrIsTooLongIsNotRead() {
        byte[] pong = MessageWriter.json(new BenchMessage.Pong(S, 1, 2, 3));
        assertFalse(mapping.read(mapping.samples(), pong).isPresent());
        assertFalse(mapping.read(mapping.from(), MessageWriter.json(SAMPLES)).isPresent());
        assertFalse(mapping.read("bench-link/1/bay-3/from", pong).isPresent());
        assertFalse(mapping.read(mapping.from(), new byte[0]).isPresent());
        byte[] spaced = (" ".repeat(16_385 - pong.length) + new String(pong, UTF_8)).getBytes(UTF_8);
        assertFalse(mapping.read(mapping.from(), spaced).isPresent());
        assertTrue(mapping.read(mapping.from(), Arrays.copyOfRange(spaced, 1, spaced.length))
                .isPresent());
    }

    @Test
    void aBenchIgnoresWhatIsRetainedOrTooLong() {
        HostMessage ping = new HostMessage.Ping(S, 1);
        byte[] payload = mapping.of(ping).payload();
        assertEquals(Optional.of(ping), mapping.readOfHost(mapping.to(), payload, false, 4096));
        assertFalse(mapping.readOfHost(mapping.to(), payload, true, 4096).isPresent());
        assertFalse(mapping.readOfHost(mapping.to(), payload, false, payload.length + 9)
                .isPresent());
        assertFalse(mapping.readOfHost(mapping.from(), payload, false, 4096).isPresent());
    }

    @Test
    void aBenchsNameCannotReachIntoOtherTopics() {
        assertThrows(IllegalArgumentException.class, () -> new MqttMapping("a/b"));
        assertThrows(IllegalArgumentException.class, () -> new MqttMapping("#"));
    }

    private static void check(String last, int qos, boolean retained, Publication publication) {
        assertEquals("bench-link/1/bay-2/" + last, publication.topic());
        assertEquals(qos, publication.qos());
        assertEquals(retained, publication.retained());
    }

    @Test
    void whoIsThereIsReadFromItsOwnTopicOnly() {
        Publication here = mapping.here(FakePoints.card());

        assertEquals(Optional.of(FakePoints.card()), MqttMapping.readHere(here.topic(), here.payload()));
        assertFalse(
                MqttMapping.readHere("bench-link/1/bay-3/here", here.payload()).isPresent());
        assertFalse(MqttMapping.readHere(here.topic(), new byte[0]).isPresent());
        assertEquals("bench-link/1/+/here", MqttMapping.EVERY_HERE);
    }
}
