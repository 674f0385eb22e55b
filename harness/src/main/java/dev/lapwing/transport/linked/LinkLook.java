package dev.lapwing.transport.linked;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.RoundTrips;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.MessageWriter;
import dev.lapwing.link.Wire;
import dev.lapwing.link.host.BenchClock;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;

/** A look at whatever answers at the other end of a link: who it is, and how long answers take. Arms nothing. */
public final class LinkLook {
    private static final long HELLO_NANOS = 200_000_000L;
    /** So long a bench may take to start, and beside it the line for the longest greeting. */
    private static final long GREETING_NANOS = 30 * HELLO_NANOS;
    /** A pong that takes longer than this, and than the line was taken by what may stand before it, is lost. */
    private static final long PONG_NANOS = 500_000_000L;

    private static final int WAITING_MAX = 4096;

    private final HostSettings settings;
    private final HostCarrier carrier;
    private final MonotonicClock clock;
    private final BlockingQueue<Came> waiting = new ArrayBlockingQueue<>(WAITING_MAX);
    private volatile Optional<String> ended = Optional.empty();
    private int lastId;

    private record Came(BenchMessage message, long atNanos) {}

    /**
     * What was seen.
     *
     * @param pings           lost are those without an answer within half a second and the time that the line needs
     *                        for a whole state
     * @param clockWidthUs    width of the interval in which the bench's time is known to lie, in µs
     * @param rate            of its clock against this machine's, if it was looked at for long enough
     * @param clockDoubt      why its clock cannot run as it says; empty if it can
     */
    public record Seen(
            BenchCard card, RoundTrips pings, long clockWidthUs, Optional<BenchClock.Rate> rate, String clockDoubt) {}

    private LinkLook(HostSettings settings, HostCarrier carrier, MonotonicClock clock) {
        this.settings = settings;
        this.carrier = carrier;
        this.clock = clock;
    }

    /**
     * Greets, then pings one by one.
     *
     * @param carrier closed in the end, whatever happens
     * @throws BenchFailure if nobody answers, or only to say no
     */
    public static Seen at(HostCarrier carrier, HostSettings settings, MonotonicClock clock, int pings)
            throws BenchFailure {
        LinkLook look = new LinkLook(settings, carrier, clock);
        try {
            return look.greetAndPing(pings);
        } catch (IOException e) {
            throw new BenchFailure(e.getMessage(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new BenchFailure("stopped", e);
        } finally {
            carrier.close();
        }
    }

    private Seen greetAndPing(int pings) throws BenchFailure, IOException, InterruptedException {
        carrier.listen(new Ears());
        BenchMessage.Greeting greeting = greeted();
        BenchClock bench = new BenchClock(greeting.card().clockPpm(), settings.hostPpm(), settings.speed());
        long patienceNanos = PONG_NANOS + carrier.lineNanos(stateBytes(greeting));
        List<Long> trips = new ArrayList<>();
        for (int i = 0; i < pings; i++) {
            int id = ++lastId;
            long sentNanos = clock.nanos();
            carrier.send(new HostMessage.Ping(settings.session(), id));
            answer(message -> message instanceof BenchMessage.Pong pong && pong.id() == id, patienceNanos)
                    .ifPresent(came -> {
                        trips.add(came.atNanos - sentNanos);
                        bench.exchange(sentNanos, came.atNanos, ((BenchMessage.Pong) came.message).nowUs());
                    });
        }
        int answered = trips.size();
        long widthUs = bench.known() ? bench.widthUs(clock.nanos()) : 0;
        return new Seen(greeting.card(), new RoundTrips(trips, pings - answered), widthUs, bench.rate(), bench.doubt());
    }

    /** The longest that a bench says by itself while nothing is streamed: a state with all its digital points. */
    private static int stateBytes(BenchMessage.Greeting greeting) {
        Map<String, Boolean> levels = new HashMap<>();
        greeting.card().points().stream()
                .filter(point -> point.kind().digital())
                .forEach(point -> levels.put(point.name(), true));
        long most = Wire.NUMBER_MAX;
        BenchMessage state = new BenchMessage.State(greeting.session(), most, most, false, false, most, levels);
        return MessageWriter.json(state).length + Wire.LINE_EXTRA_BYTES;
    }

    private BenchMessage.Greeting greeted() throws BenchFailure, IOException, InterruptedException {
        int id = ++lastId;
        long untilNanos = clock.nanos() + GREETING_NANOS + carrier.lineNanos(Wire.BENCH_BYTES_MAX);
        while (clock.nanos() < untilNanos) {
            carrier.send(new HostMessage.Hello(settings.session(), id, Wire.LINK, settings.host()));
            Optional<Came> came =
                    answer(message -> message instanceof BenchMessage.Answer answer && answer.id() == id, HELLO_NANOS);
            if (came.isPresent() && came.get().message instanceof BenchMessage.Greeting greeting) {
                return greeting;
            }
            if (came.isPresent() && came.get().message instanceof BenchMessage.Refused refused) {
                throw Failures.notLetIn(refused.why());
            }
        }
        throw new BenchFailure(carrier.whyNobody());
    }

    private Optional<Came> answer(Predicate<BenchMessage> wanted, long patienceNanos)
            throws BenchFailure, InterruptedException {
        long untilNanos = clock.nanos() + patienceNanos;
        while (true) {
            Came came = waiting.poll(Math.max(0, untilNanos - clock.nanos()), TimeUnit.NANOSECONDS);
            if (came == null) {
                Failures.throwIf(ended);
                return Optional.empty();
            }
            if (came.message.session().equals(settings.session()) && wanted.test(came.message)) {
                return Optional.of(came);
            }
        }
    }

    private final class Ears implements HostCarrier.Hearing {
        @Override
        public void came(BenchMessage message) {
            // What finds no room is counted as lost.
            waiting.offer(new Came(message, clock.nanos()));
        }

        @Override
        public void ended(String why) {
            ended = Optional.of(why);
        }
    }
}
