package dev.lapwing.link.host;

import dev.lapwing.link.HostMessage.Safe;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The one command that goes before all others: asked for, repeated until it is answered. */
final class SafeOrder {
    private @Nullable Safe message;
    private Repeats repeats = Repeats.fromNow(0);

    void ask(Safe asked, long nowNanos) {
        message = asked;
        repeats = Repeats.fromNow(nowNanos);
    }

    /** The safe that has not been answered. */
    Optional<Safe> open() {
        return Optional.ofNullable(message);
    }

    Optional<Safe> poll(long nowNanos) {
        if (message == null || !repeats.due(nowNanos)) {
            return Optional.empty();
        }
        repeats.said(nowNanos);
        return Optional.of(message);
    }

    /** Whether that answers it; it is no longer open then. */
    boolean answered(int id) {
        boolean answers = message != null && message.id() == id;
        message = answers ? null : message;
        return answers;
    }

    boolean exhausted(long nowNanos) {
        return message != null && repeats.exhausted(nowNanos);
    }

    long dueNanos() {
        return message == null ? Long.MAX_VALUE : repeats.dueNanos();
    }
}
