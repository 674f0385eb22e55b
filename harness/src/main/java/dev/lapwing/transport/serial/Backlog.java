package dev.lapwing.transport.serial;

import java.util.Arrays;

/**
 * What a pseudo-terminal did not take at once. It holds a few thousand bytes where the driver of a real device holds
 * tens of thousands; the difference is held here, so that a host that is late by a moment loses no more than it would
 * with a real device. What goes beyond is lost, as there.
 */
final class Backlog {
    /** As much as usual drivers of serial devices hold. Common practice, no source. */
    private static final int BYTES_MAX = 65_536;

    private final Taker terminal;
    private byte[] waiting = new byte[0];

    /** Takes as much as it can at once; how much that was. */
    interface Taker {
        int write(byte[] bytes);
    }

    Backlog(Taker terminal) {
        this.terminal = terminal;
    }

    /** Writes in the order of the calls. */
    synchronized void write(byte[] bytes) {
        int fits = Math.min(bytes.length, BYTES_MAX - waiting.length);
        int from = waiting.length;
        waiting = Arrays.copyOf(waiting, from + fits);
        System.arraycopy(bytes, 0, waiting, from, fits);
        flush();
    }

    /** Offers again what waits; whether any still does. */
    synchronized boolean flush() {
        if (waiting.length > 0) {
            waiting = Arrays.copyOfRange(waiting, terminal.write(waiting), waiting.length);
        }
        return waiting.length > 0;
    }

    /** Nobody is there to read it. */
    synchronized void drop() {
        waiting = new byte[0];
    }
}
