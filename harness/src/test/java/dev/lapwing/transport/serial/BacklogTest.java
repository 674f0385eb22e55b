package dev.lapwing.transport.serial;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import org.junit.jupiter.api.Test;

/** What a terminal does not take at once comes later, in order, up to a bound. */
class BacklogTest {
    private final ByteArrayOutputStream taken = new ByteArrayOutputStream();
    private int room = Integer.MAX_VALUE;
    private final Backlog backlog = new Backlog(bytes -> {
        int count = Math.min(room, bytes.length);
        taken.write(bytes, 0, count);
        room -= count;
        return count;
    });

    @Test
    void whatIsTakenAtOnceLeavesNothing() {
        backlog.write("0123".getBytes(US_ASCII));
        assertThat(backlog.flush()).isFalse();
        assertThat(taken.toString(US_ASCII)).isEqualTo("0123");
    }

    @Test
    void whatIsNotTakenComesInItsOrder() {
        room = 3;
        backlog.write("0123".getBytes(US_ASCII));
        backlog.write("4567".getBytes(US_ASCII));
        assertThat(backlog.flush()).isTrue();
        room = 100;
        assertThat(backlog.flush()).isFalse();
        assertThat(taken.toString(US_ASCII)).isEqualTo("01234567");
    }

    @Test
    void itHoldsNoMoreThanADriverWould() {
        room = 0;
        backlog.write(new byte[60_000]);
        backlog.write(new byte[60_000]);
        room = Integer.MAX_VALUE;
        backlog.flush();
        assertThat(taken.size()).isEqualTo(65_536);
    }

    @Test
    void whatNobodyIsThereToReadIsGone() {
        room = 0;
        backlog.write(new byte[10]);
        backlog.drop();
        room = 100;
        assertThat(backlog.flush()).isFalse();
        assertThat(taken.size()).isZero();
    }
}
