package dev.lapwing.transport.serial;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;

/** Two serial devices of which each gets what is written to the other: a null-modem cable that can be pulled. */
public final class TerminalPair implements AutoCloseable {
    private static final int WAIT_MS = 5;

    private final PseudoTerminal one;
    private final PseudoTerminal other;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final Thread there;
    private final Thread back;
    private volatile boolean pulled;

    /** @param fromOne hears every piece that the first device sent */
    public TerminalPair(Consumer<byte[]> fromOne) throws IOException {
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

    private void pass(PseudoTerminal from, PseudoTerminal to, Consumer<byte[]> hearing) {
        byte[] bytes = new byte[512];
        try {
            while (!closed.get()) {
                int count = from.read(bytes, WAIT_MS);
                if (count > 0) {
                    byte[] piece = Arrays.copyOf(bytes, count);
                    hearing.accept(piece);
                    if (!pulled) {
                        to.write(piece);
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        closed.set(true);
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
