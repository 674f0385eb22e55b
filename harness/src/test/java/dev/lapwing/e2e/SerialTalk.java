package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import com.fazecast.jSerialComm.SerialPort;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.CommandWriter;
import dev.lapwing.link.MessageReader;
import dev.lapwing.link.SerialDecoder;
import dev.lapwing.link.SerialEncoder;
import dev.lapwing.link.host.HostEvent;
import dev.lapwing.link.host.HostSession;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Predicate;

/** The host's side of the link over a device, on the test's own thread: silent while the test does not talk. */
final class SerialTalk implements AutoCloseable {
    static final int BAUD = 921_600;
    private static final long PATIENCE_NANOS = 15_000_000_000L;

    private final MonotonicClock clock = MonotonicClock.system();
    private final SerialPort port;
    private final SerialDecoder decoder = SerialDecoder.ofBench();
    private final byte[] bytes = new byte[4096];
    /** Everything that the session has told. */
    final List<HostEvent> events = new ArrayList<>();
    /** Everything that came over the line, of whatever session. */
    final List<BenchMessage> came = new ArrayList<>();

    final HostSession session;

    /** @param name eight hex digits of its session */
    SerialTalk(String device, String name) {
        this(device, name, BAUD);
    }

    SerialTalk(String device, String name, int baud) {
        port = SerialPort.getCommPort(device);
        port.setComPortParameters(baud, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setComPortTimeouts(SerialPort.TIMEOUT_NONBLOCKING, 0, 0);
        assertThat(port.openPort()).as("the device opens").isTrue();
        says(new byte[] {SerialEncoder.OPENING});
        session = new HostSession(new HostSettings(name, "third party", 200), events::add, clock.nanos());
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
            hears();
            session.step(clock.nanos());
            session.poll(clock.nanos())
                    .ifPresentOrElse(
                            message -> says(SerialEncoder.line(CommandWriter.json(message))), Thread::onSpinWait);
        }
        return true;
    }

    private void hears() {
        int count = port.readBytes(bytes, bytes.length);
        assertThat(count).as("the device is there").isGreaterThanOrEqualTo(0);
        if (count > 0) {
            decoder.accept(bytes, 0, count, new Sink());
        }
    }

    /** The last answer to a command. */
    Optional<Answer> answer(int id) {
        return told(HostEvent.Answered.class, answered -> answered.id() == id).map(HostEvent.Answered::answer);
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
        port.closePort();
    }

    private final class Sink implements SerialDecoder.Sink {
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
                session.receive(found, clock.nanos());
            });
            return message.isPresent();
        }
    }
}
