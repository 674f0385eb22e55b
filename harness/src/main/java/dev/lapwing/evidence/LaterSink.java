package dev.lapwing.evidence;

import java.io.IOException;
import java.util.Arrays;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executor;
import java.util.concurrent.Semaphore;
import org.jspecify.annotations.Nullable;

/**
 * Leaves the waiting for a disk to somebody else, so that whoever decides in a run never waits for it. What may be
 * under way is bounded: where a disk falls behind by more than that, the writer waits after all. A failure is thrown at
 * the next call, at closing at the latest.
 */
final class LaterSink implements LogSink {
    /** Bytes that may be under way: more than a minute of 8 channels at 5 kHz. */
    private static final int BYTES_MAX = 16 << 20;

    private final LogSink sink;
    private final Executor disk;
    private final Semaphore room = new Semaphore(BYTES_MAX);
    private volatile @Nullable IOException failure;

    /** @param disk does what it is given one after the other, in that order */
    LaterSink(LogSink sink, Executor disk) {
        this.sink = sink;
        this.disk = disk;
    }

    @Override
    public void write(byte[] bytes, int length) throws IOException {
        throwFailure();
        byte[] copy = Arrays.copyOf(bytes, length);
        int share = Math.min(length, BYTES_MAX);
        room.acquireUninterruptibly(share);
        disk.execute(() -> {
            attempt(() -> writeOn(copy));
            room.release(share);
        });
    }

    /** Asks for it, and returns at once. */
    @Override
    public void force() throws IOException {
        throwFailure();
        disk.execute(() -> attempt(sink::force));
    }

    /** Returns when everything is written, or says what could not be. */
    @Override
    public void close() throws IOException {
        CountDownLatch done = new CountDownLatch(1);
        disk.execute(() -> {
            attempt(sink::close);
            done.countDown();
        });
        boolean interrupted = false;
        while (done.getCount() > 0) {
            try {
                done.await();
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
        throwFailure();
    }

    /** After a failure nothing more is written, so that the log has no hole. */
    private void writeOn(byte[] bytes) throws IOException {
        if (failure == null) {
            sink.write(bytes, bytes.length);
        }
    }

    private void attempt(Writing writing) {
        try {
            writing.run();
        } catch (IOException e) {
            failure = failure == null ? e : failure;
        }
    }

    private void throwFailure() throws IOException {
        IOException failed = failure;
        if (failed != null) {
            throw failed;
        }
    }

    private interface Writing {
        void run() throws IOException;
    }
}
