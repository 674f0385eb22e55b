package dev.lapwing.transport.serial;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/**
 * Two serial devices of which each gets what is written to the other: a null-modem cable that can be pulled, and that
 * may take as long for a byte as a line of some baud rate.
 */
public final class TerminalPair implements AutoCloseable {
    private static final int WAIT_MS = 5;

    private final PseudoTerminal one;
    private final PseudoTerminal other;
    private final CountDownLatch closed = new CountDownLatch(1);
    private final long byteNanos;
    private final Thread there;
    private final Thread back;
    private volatile boolean pulled;

    /** @param fromOne hears every piece that the first device sent */
    public TerminalPair(Consumer<byte[]> fromOne) throws IOException {
        this(fromOne, 0);
    }

    /**
     * A cable that takes its time.
     *
     * @param byteNanos time for a byte in each direction, in ns; 0 for none
     */
    public TerminalPair(Consumer<byte[]> fromOne, long byteNanos) throws IOException {
        this.byteNanos = byteNanos;
        one = PseudoTerminal.open();
        other = PseudoTerminal.open();
        there = new Thread(() -> pass(one, other, fromOne), "one end to the other");
        back = new Thread(() -> pass(other, one, bytes -> {}), "the other end to the one");
        there.start();
        back.start();
    }

    public String one() {
        return one.device();
    }

    public String other() {
        return other.device();
    }

    /** From now on nothing passes. */
    public void pull() {
        pulled = true;
    }

    /** From now on everything passes again. */
    public void plugIn() {
        pulled = false;
    }

    private void pass(PseudoTerminal from, PseudoTerminal to, Consumer<byte[]> hearing) {
        byte[] bytes = new byte[512];
        long freeNanos = System.nanoTime();
        try {
            while (closed.getCount() > 0) {
                int count = from.read(bytes, WAIT_MS);
                if (count > 0) {
                    byte[] piece = Arrays.copyOf(bytes, count);
                    hearing.accept(piece);
                    freeNanos = Math.max(freeNanos, System.nanoTime()) + count * byteNanos;
                    closed.await(freeNanos - System.nanoTime(), TimeUnit.NANOSECONDS);
                    if (!pulled) {
                        to.write(piece);
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        closed.countDown();
        try {
            there.join();
            back.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        one.close();
        other.close();
    }
}
