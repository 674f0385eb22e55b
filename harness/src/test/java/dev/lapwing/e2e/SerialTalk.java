package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import com.fazecast.jSerialComm.SerialPort;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.CommandWriter;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.MessageReader;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.host.HostEvent;
import dev.lapwing.link.host.HostSession;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Predicate;

/** The host's side of the link over a device, on the test's own thread: silent while the test does not talk. */
final class SerialTalk implements AutoCloseable {
    static final int BAUD = 921_600;
    private static final long PATIENCE_NANOS = 30_000_000_000L;
    private static final int READ_MS = 100;
    private static final long LOOK_NANOS = 5_000_000L;

    private final MonotonicClock clock = MonotonicClock.system();
    private final SerialPort port;
    private final SerialDecoder decoder = SerialDecoder.ofBench();
    private final BlockingQueue<Came> line = new LinkedBlockingQueue<>();
    private final Thread reader =
            new Thread(this::reads, "reader of " + getClass().getSimpleName());
    private volatile boolean closed;
    /** Everything that the session has told. */
    final List<HostEvent> events = new ArrayList<>();
    /** Everything that came over the line, of whatever session. */
    final List<BenchMessage> came = new ArrayList<>();

    final HostSession session;

    /** Bytes of the line, and when they were there. */
    private record Came(byte[] bytes, long atNanos) {}

    /** @param name eight hex digits of its session */
    SerialTalk(String device, String name) {
        this(device, name, BAUD);
    }

    SerialTalk(String device, String name, int baud) {
        port = SerialPort.getCommPort(device);
        port.setComPortParameters(baud, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MS, 0);
        assertThat(port.openPort()).as("the device opens").isTrue();
        says(new byte[] {SerialEncoder.OPENING});
        session = new HostSession(new HostSettings(name, "third party", 200), events::add, clock.nanos());
        reader.setDaemon(true);
        reader.start();
    }

    /** Bytes as they are. */
    void says(byte[] raw) {
        assertThat(port.writeBytes(raw, raw.length)).isEqualTo(raw.length);
    }

    /** Talks until that holds. */
    void until(String what, BooleanSupplier holds) {
        assertThat(talks(PATIENCE_NANOS, holds))
                .as(what + "; told: " + events.subList(0, Math.min(8, events.size())))
                .isTrue();
    }

    /** Talks for so long. */
    void forMs(long ms) {
        talks(ms * 1_000_000, () -> false);
    }

    private boolean talks(long patienceNanos, BooleanSupplier holds) {
        long untilNanos = clock.nanos() + patienceNanos;
        while (!holds.getAsBoolean()) {
            if (clock.nanos() > untilNanos) {
                return false;
            }
            session.step(clock.nanos());
            for (Optional<HostMessage> next = session.poll(clock.nanos());
                    next.isPresent();
                    next = session.poll(clock.nanos())) {
                says(SerialEncoder.line(CommandWriter.json(next.get())));
            }
            hears(Math.min(LOOK_NANOS, session.nextDueNanos() - clock.nanos()));
        }
        return true;
    }

    /** Takes what has come, waiting for it no longer than that. */
    private void hears(long nanos) {
        try {
            for (Came came = line.poll(nanos, TimeUnit.NANOSECONDS); came != null; came = line.poll()) {
                decoder.accept(came.bytes, 0, came.bytes.length, new Sink(came.atNanos));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("interrupted", e);
        }
    }

    private void reads() {
        byte[] bytes = new byte[4096];
        for (int count = 0; count >= 0 && !closed; count = port.readBytes(bytes, bytes.length)) {
            if (count > 0) {
                line.add(new Came(Arrays.copyOf(bytes, count), clock.nanos()));
            }
        }
    }

    /** The last answer to a command. */
    Optional<Answer> answer(int id) {
        return told(HostEvent.Answered.class, answered -> answered.id() == id).map(HostEvent.Answered::answer);
    }

    /** The first answer to arming; asked again where a slow moment made the link too slow to arm over. */
    Answer arm(Map<String, Limit> limits, int beatMs) {
        long untilNanos = clock.nanos() + PATIENCE_NANOS;
        while (true) {
            int id = session.arm(limits, beatMs);
            until(
                    "an answer to arming",
                    () -> answer(id).isPresent()
                            || told(HostEvent.Withdrawn.class, gone -> gone.id() == id)
                                    .isPresent());
            if (answer(id).isPresent() || clock.nanos() > untilNanos) {
                return answer(id).orElseThrow();
            }
        }
    }

    <T extends Answer> T answered(int id, Class<T> kind) {
        until(
                kind.getSimpleName() + " to " + id,
                () -> answer(id).filter(kind::isInstance).isPresent());
        return kind.cast(answer(id).orElseThrow());
    }

    /** The last report of a kind for which that holds. */
    <T extends Report> Optional<T> report(Class<T> kind, Predicate<T> holds) {
        return told(
                        HostEvent.Reported.class,
                        reported -> kind.isInstance(reported.report()) && holds.test(kind.cast(reported.report())))
                .map(reported -> kind.cast(reported.report()));
    }

    <T extends Report> T reported(Class<T> kind, Predicate<T> holds) {
        until("a report " + kind.getSimpleName(), () -> report(kind, holds).isPresent());
        return report(kind, holds).orElseThrow();
    }

    <T extends HostEvent> Optional<T> told(Class<T> kind, Predicate<T> holds) {
        for (int i = events.size() - 1; i >= 0; i--) {
            if (kind.isInstance(events.get(i)) && holds.test(kind.cast(events.get(i)))) {
                return Optional.of(kind.cast(events.get(i)));
            }
        }
        return Optional.empty();
    }

    @Override
    public void close() {
        closed = true;
        port.closePort();
        try {
            reader.join(1_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private final class Sink implements SerialDecoder.Sink {
        private final long atNanos;

        Sink(long atNanos) {
            this.atNanos = atNanos;
        }

        @Override
        public boolean line(byte[] json) {
            return takes(MessageReader.benchMessage(json));
        }

        @Override
        public boolean dense(byte[] cbor) {
            return takes(MessageReader.denseSamples(cbor));
        }

        private boolean takes(Optional<BenchMessage> message) {
            message.ifPresent(found -> {
                came.add(found);
                session.receive(found, atNanos);
            });
            return message.isPresent();
        }
    }
}
