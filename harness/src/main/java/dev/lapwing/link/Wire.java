package dev.lapwing.link;

import java.util.regex.Pattern;

/** Bounds that the contract gives to what is said. */
public final class Wire {
    /** Version of the link. */
    public static final int LINK = 1;
    /** Greatest number in a message: times, rates and message numbers stay exact in every JSON reader. */
    public static final long NUMBER_MAX = (1L << 53) - 1;
    /** Greatest length in bytes of what a bench sends at once, framing included. */
    public static final int BENCH_BYTES_MAX = 16_384;
    /** Greatest length in bytes of a host's line until it knows the bench's {@code max-line}, framing included. */
    public static final int HOST_BYTES_MAX = 4_096;
    /** Bytes that a line has besides its JSON text: a space, eight digits of CRC, a line feed. */
    public static final int LINE_EXTRA_BYTES = 10;
    /** Most streams at once. */
    public static final int STREAMS_MAX = 4;
    /** Least heartbeat limit in ms. */
    public static final int BEAT_MS_MIN = 100;
    /** Greatest heartbeat limit that a bench may offer, in ms. */
    public static final int BEAT_MS_MAX = 500;
    /** How much faster than real time a computed bench may be served; its limits are of its own time. */
    public static final int SPEED_MAX = 100;

    private static final Pattern EIGHT_HEX = Pattern.compile("[0-9a-f]{8}");
    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9-]{1,32}");

    private Wire() {}

    /** Whether it can be a session or a boot. */
    public static boolean isToken(String text) {
        return EIGHT_HEX.matcher(text).matches();
    }

    /** Whether it can be the name of a bench, a point or a stream. */
    public static boolean isName(String text) {
        return NAME.matcher(text).matches();
    }
}
