package dev.lapwing.link.host;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Report;

/** What a session tells the one who holds it. */
public sealed interface HostEvent {
    /** The bench has answered: it is this one, and the session has begun. */
    record Greeted(BenchCard card) implements HostEvent {}

    /**
     * A command's answer; a {@code queued} is followed by another. Repeated answers are told once. Of a command that
     * was repeated, {@code stale}, {@code no-session} and {@code busy} leave open whether it was executed before.
     */
    record Answered(int id, Answer answer) implements HostEvent {}

    /** A command was taken back before its answer came: it will not be repeated, and nothing more is told of it. */
    record Withdrawn(int id, String why) implements HostEvent {}

    /** Something that the bench reports, once each, in the order in which they came. */
    record Reported(Report report) implements HostEvent {}

    /**
     * The bench reported something that did not come, and will not be waited for any longer. Whatever was lost was
     * about bench time from {@code fromUs} to {@code toUs}; it may have been any point's.
     *
     * @param fromN first number lost
     * @param toN   last number lost
     */
    record Lost(long fromN, long toN, long fromUs, long toUs) implements HostEvent {}

    /** The bench's clock cannot run as it says: nothing that it times can be relied upon. Told once. */
    record ClockDoubted(String why) implements HostEvent {}

    /** Everything that the bench had to say has come, or is told to be lost. The session has ended as it should. */
    record Finished() implements HostEvent {}

    /** The session is over for a reason that is not the host's. Told once, and last. */
    record Ended(EndReason reason, String why) implements HostEvent {}

    /** Why a session ended early. */
    enum EndReason {
        /** The bench did not let the host in. */
        REFUSED,
        /** No answer in spite of all repeats, or nothing at all for too long. */
        LINK_LOST,
        /** Another host has the bench now. This one does not greet again by itself. */
        TAKEN_OVER,
        /** The bench has started anew and knows of no session. */
        REBOOTED,
        /** Somebody else speaks as the bench: of what was reported nobody knows whose it was. */
        TWO_VOICES
    }
}
