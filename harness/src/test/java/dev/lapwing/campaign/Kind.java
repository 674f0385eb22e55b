package dev.lapwing.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A row of the campaign's table: what goes wrong, and over which links it can. */
enum Kind {
    NONE(true, true),
    // Of the line.
    BIT_ERRORS(true, false),
    DROPPED(true, false),
    DOUBLED(true, false),
    DELAYED(true, false),
    STALLED(true, false),
    UNPLUGGED(true, false),
    WRONG_BAUD(true, false),
    STRANGER_ON_THE_LINE(true, false),
    // Of the broker and its topics.
    BROKER_RESTARTED(false, true),
    BROKER_HALTED(false, true),
    STRANGER_ON_THE_TOPICS(false, true),
    MESSAGES_LOST(false, true),
    MESSAGES_DOUBLED(false, true),
    // Of the bench.
    DEAD_TRANSDUCER(true, true),
    RESET(true, true),
    POWER_LOSS(true, true),
    // Of somebody else.
    SECOND_HELLO(true, true),
    SECOND_HOST(true, true),
    TOLD_SAFE(true, true),
    // Of the host.
    HOST_LINK_GONE(true, true),
    HOST_KILLED(true, true),
    HOST_TERMINATED(true, true);

    private final boolean serial;
    private final boolean mqtt;

    Kind(boolean serial, boolean mqtt) {
        this.serial = serial;
        this.mqtt = mqtt;
    }

    /** A kind over one of its links. */
    record Over(Kind kind, boolean broker) implements Comparable<Over> {
        @Override
        public int compareTo(Over other) {
            return kind == other.kind ? Boolean.compare(broker, other.broker) : kind.compareTo(other.kind);
        }

        @Override
        public String toString() {
            return (broker ? "mqtt " : "serial ")
                    + kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** Every kind over each of its links. */
    static List<Over> all() {
        List<Over> all = new ArrayList<>();
        for (Kind kind : values()) {
            if (kind.serial) {
                all.add(new Over(kind, false));
            }
            if (kind.mqtt) {
                all.add(new Over(kind, true));
            }
        }
        return all;
    }
}
