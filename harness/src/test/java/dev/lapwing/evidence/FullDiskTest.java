package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A disk that takes no more: told in one sentence, however the writer is left, and nothing stays open. */
class FullDiskTest {
    private final List<String> closed = new ArrayList<>();

    private final LogSink full = new LogSink() {
        @Override
        public void write(byte[] bytes, int length) throws IOException {
            throw new IOException("No space left on device");
        }

        @Override
        public void force() {}

        @Override
        public void close() {
            closed.add("closed");
        }
    };

    @Test
    void aFailureUnderWayIsTheOneThatIsToldWhenTheWriterIsClosed() {
        assertThatThrownBy(() -> {
                    try (FrameWriter writer = new FrameWriter(full, "records/one")) {
                        writer.force();
                    }
                })
                .isInstanceOf(RecordFailure.class)
                .hasMessage("records/one: the run record cannot be written: No space left on device");
        assertThat(closed).hasSize(1);
    }

    @Test
    void everyFurtherCallSaysItAgain() {
        FrameWriter writer = new FrameWriter(full, "records/one");

        assertThatThrownBy(writer::push).isInstanceOf(RecordFailure.class);
        assertThatThrownBy(writer::force).isInstanceOf(RecordFailure.class).hasMessageContaining("No space left");
        writer.close();
        assertThat(closed).hasSize(1);
    }

    @Test
    void whatWasNeverHandedOverIsToldByClosing() {
        FrameWriter writer = new FrameWriter(full, "records/one");

        assertThatThrownBy(writer::close).isInstanceOf(RecordFailure.class);
        assertThat(closed).hasSize(1);
    }
}
