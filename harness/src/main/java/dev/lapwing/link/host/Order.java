package dev.lapwing.link.host;

import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ordered;
import dev.lapwing.link.HostMessage.Set;
import java.util.Map;

/** A command whose id rises, on its way. */
sealed interface Order {
    int id();

    /** Whether it makes outputs live or drives them, so that a safe takes it back. */
    boolean drives();

    /** Complete. */
    record Ready(Ordered message) implements Order {
        @Override
        public int id() {
            return message.id();
        }

        @Override
        public boolean drives() {
            return message instanceof Set || message instanceof HostMessage.Arm;
        }

        boolean timedSet() {
            return message instanceof Set set && set.timed();
        }
    }

    /** To be completed when the round trips are known that its heartbeat limit rests on. */
    record ToArm(int id, Map<String, Limit> limits, int beatMs) implements Order {
        @Override
        public boolean drives() {
            return true;
        }
    }
}
