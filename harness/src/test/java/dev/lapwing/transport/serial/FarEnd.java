package dev.lapwing.transport.serial;

import java.io.IOException;
import java.util.Arrays;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;

/** A serial device at whose other end a test listens and speaks. */
public final class FarEnd implements AutoCloseable {
    private static final int WAIT_MS = 5;

    private final PseudoTerminal terminal = PseudoTerminal.open();
    private final AtomicBoolean closed = new AtomicBoolean();
    private final Thread thread;

    /** @param hearing hears every piece, on a thread of this end's */
    public FarEnd(Consumer<byte[]> hearing) throws IOException {
        thread = new Thread(() -> hear(hearing), "the far end");
        thread.start();
    }

    public String device() {
        return terminal.device();
    }

    public void say(byte[] bytes) {
        terminal.write(bytes);
    }

    private void hear(Consumer<byte[]> hearing) {
        byte[] bytes = new byte[512];
        try {
            while (!closed.get()) {
                int count = terminal.read(bytes, WAIT_MS);
                if (count > 0) {
                    hearing.accept(Arrays.copyOf(bytes, count));
                }
            }
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void close() {
        closed.set(true);
        try {
            thread.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        terminal.close();
    }
}
