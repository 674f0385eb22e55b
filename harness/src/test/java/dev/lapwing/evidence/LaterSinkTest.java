package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.Executor;
import org.junit.jupiter.api.Test;

/** A disk that is waited for by somebody else. */
class LaterSinkTest {
    private final List<String> done = new ArrayList<>();
    private final Deque<Runnable> left = new ArrayDeque<>();
    private boolean full;

    private final LogSink disk = new LogSink() {
        @Override
        public void write(byte[] bytes, int length) throws IOException {
            if (full) {
                throw new IOException("No space left on device");
            }
            done.add("write " + new String(bytes, 0, length, StandardCharsets.US_ASCII));
        }

        @Override
        public void force() {
            done.add("force");
        }

        @Override
        public void close() {
            done.add("close");
        }
    };

    private void write(LogSink sink, String text) throws IOException {
        byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
        sink.write(bytes, bytes.length);
        bytes[0] = '?';
    }

    private void catchUp() {
        while (!left.isEmpty()) {
            left.remove().run();
        }
    }

    @Test
    void nobodyWaitsForTheDiskAndItGetsEverythingInOrder() throws IOException {
        LaterSink sink = new LaterSink(disk, left::add);
        write(sink, "one");
        sink.force();
        write(sink, "two");
        assertThat(done).isEmpty();

        catchUp();
        assertThat(done).containsExactly("write one", "force", "write two");
    }

    @Test
    void aFailureIsToldAtTheNextCallAndNothingIsWrittenAfterIt() throws IOException {
        LaterSink sink = new LaterSink(disk, left::add);
        full = true;
        write(sink, "one");
        write(sink, "two");
        catchUp();
        full = false;

        assertThatThrownBy(() -> write(sink, "three"))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("No space");
        assertThatThrownBy(sink::force).isInstanceOf(IOException.class);
        assertThat(done).isEmpty();
    }

    @Test
    void aFailureThatNobodyWasToldOfIsToldByClosing() throws IOException {
        Executor late = work -> {
            left.add(work);
            // Closing is the third thing asked for: by then the disk has caught up.
            if (left.size() == 3) {
                catchUp();
            }
        };
        LaterSink sink = new LaterSink(disk, late);
        full = true;
        write(sink, "one");
        sink.force();

        assertThatThrownBy(sink::close).isInstanceOf(IOException.class).hasMessageContaining("No space");
        assertThat(done).contains("close");
    }
}
