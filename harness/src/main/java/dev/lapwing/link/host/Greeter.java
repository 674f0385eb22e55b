package dev.lapwing.link.host;

import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Hello;
import dev.lapwing.link.Wire;
import java.util.Optional;

/** Says hello until it is answered. */
final class Greeter {
    private final Hello hello;
    private final Repeats repeats;
    private long firstNanos;

    Greeter(int id, HostSettings settings, long nowNanos) {
        this.hello = new Hello(settings.session(), id, Wire.LINK, settings.host());
        this.repeats = Repeats.ofHello(nowNanos, settings.greetingNanos());
    }

    boolean asked(int id) {
        return hello.id() == id;
    }

    Optional<HostMessage> poll(long nowNanos) {
        if (!repeats.due(nowNanos)) {
            return Optional.empty();
        }
        firstNanos = repeats.unsaid() ? nowNanos : firstNanos;
        repeats.said(nowNanos);
        return Optional.of(hello);
    }

    /** When hello was first said: whichever of them is answered, it was not said before. */
    long firstNanos() {
        return firstNanos;
    }

    boolean exhausted(long nowNanos) {
        return repeats.exhausted(nowNanos);
    }

    long dueNanos() {
        return repeats.dueNanos();
    }
}
