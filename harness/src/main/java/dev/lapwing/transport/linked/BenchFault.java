package dev.lapwing.transport.linked;

import java.util.OptionalInt;

/** What goes wrong with a served bench on purpose, so that whoever drives it can be tried. */
public sealed interface BenchFault {

    /** Of what carries the bytes, in both directions, from its moment on or for so long. */
    sealed interface OnTheLine extends BenchFault {}

    /** Of whatever carries whole messages as well; what meets bytes on a line meets messages there. */
    sealed interface OfMessages extends OnTheLine {}

    /** Each bit is turned over with a probability of {@code rate}, 0 to 1. */
    record BitErrors(double rate) implements OnTheLine {}

    /** Each byte is lost with a probability of {@code rate}, 0 to 1. */
    record Dropped(double rate) implements OfMessages {}

    /** Each byte comes twice with a probability of {@code rate}, 0 to 1. */
    record Doubled(double rate) implements OfMessages {}

    /** Everything comes later by {@code nanos} and up to {@code jitterNanos} more, in its order; ns of bench time. */
    record Delayed(long nanos, long jitterNanos) implements OfMessages {}

    /** Nothing moves for so long, in ns of bench time; then everything comes at once. */
    record Stalled(long nanos) implements OfMessages {}

    /** The cable is pulled and put back after so long, in ns of bench time; what was sent meanwhile is lost. */
    record Unplugged(long nanos) implements OfMessages {}

    /** For so long, in ns of bench time, bytes come as if one end had another baud rate: others, and fewer. */
    record WrongBaud(long nanos) implements OnTheLine {}

    /** For so long, in ns of bench time, a stranger talks in between: noise, and messages of another session. */
    record Stranger(long nanos) implements OnTheLine {}

    /** An analogue input reads one count for good: the one given, or the last that it had. */
    record DeadTransducer(String point, OptionalInt counts) implements BenchFault {}

    /** The bench starts anew: outputs safe, another boot, and it knows nobody. */
    record Reset() implements BenchFault {}

    /** The bench goes dark: outputs fall to safe, the device is gone, and nothing comes back. */
    record PowerLoss() implements BenchFault {}
}
