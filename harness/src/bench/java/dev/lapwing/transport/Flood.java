package dev.lapwing.transport;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.Samples;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * A bench that answers as far as a host needs it, and has a great many dense samples ready, in messages as a host asks
 * for them at 5 kHz.
 */
final class Flood {
    /** Samples in a message: 20 ms of 5 kHz. */
    static final int ROWS = 100;

    private static final long EVERY_US = 200;
    /** Far enough in the bench's life that all samples are of the past. */
    private static final long NOW_US = 4_000_000_000L;

    private static final long FIRST_US = 1_000_000_000L;

    private final SplittableRandom random = new SplittableRandom(1);
    private volatile int order;

    /** The answer to a command; empty where there is none. */
    Optional<BenchMessage> answer(HostMessage message) {
        String session = message.session();
        if (message instanceof HostMessage.Hello hello) {
            return Optional.of(new BenchMessage.Greeting(session, hello.id(), 0, NOW_US, Pressures.card()));
        } else if (message instanceof HostMessage.Ping ping) {
            return Optional.of(new BenchMessage.Pong(session, ping.id(), 0, NOW_US));
        } else if (message instanceof HostMessage.Stream stream) {
            order = stream.points().isEmpty() ? order : stream.id();
            return Optional.of(new BenchMessage.Done(session, stream.id(), 0, BenchMessage.NONE));
        } else if (message instanceof HostMessage.Safe safe) {
            return Optional.of(new BenchMessage.Done(session, safe.id(), 0, NOW_US));
        }
        return Optional.empty();
    }

    /** Whether the host has asked for samples. */
    boolean ordered() {
        return order != 0;
    }

    /** What a greeting announces first. */
    static BenchMessage state() {
        return new BenchMessage.State(Link.SESSION, 0, NOW_US, false, false, 0, Map.of());
    }

    /** Message {@code n}, from 1 on. */
    Samples samples(int n) {
        int[] counts = random.ints((long) ROWS * Pressures.CHANNELS, 0, Pressures.COUNT_MAX)
                .toArray();
        List<String> points = Pressures.points();
        long t0Us = FIRST_US + (long) n * ROWS * EVERY_US;
        return new Samples(Link.SESSION, n, Pressures.STREAM, order, t0Us, EVERY_US, points, counts).asDense();
    }
}
