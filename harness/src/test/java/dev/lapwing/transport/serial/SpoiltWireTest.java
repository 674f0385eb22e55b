package dev.lapwing.transport.serial;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.TimedFault;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What comes out of a line with faults, and when. */
class SpoiltWireTest {
    private static final long MS = 1_000_000;
    private static final long AT = 100 * MS;
    private static final byte[] TEXT = "0123456789".getBytes(US_ASCII);
    private static final byte[] STRANGERS = "stranger\n".getBytes(US_ASCII);

    private static SpoiltWire wire(BenchFault fault) {
        return new SpoiltWire(List.of(new TimedFault(fault, AT)), List.of(STRANGERS), new SplittableRandom(7));
    }

    private static byte[] through(SpoiltWire wire, byte[] bytes, long nanos) {
        wire.put(bytes, bytes.length, nanos);
        return wire.due(nanos);
    }

    @Test
    void beforeItsMomentNoFaultTouchesAnything() {
        for (BenchFault fault : List.of(
                new BenchFault.BitErrors(1),
                new BenchFault.Dropped(1),
                new BenchFault.Doubled(1),
                new BenchFault.Delayed(MS, MS),
                new BenchFault.Stalled(MS),
                new BenchFault.Unplugged(MS),
                new BenchFault.WrongBaud(MS),
                new BenchFault.Stranger(MS))) {
            assertThat(through(wire(fault), TEXT, AT - 1)).as(fault.toString()).isEqualTo(TEXT);
        }
    }

    @Test
    void bitErrorsTurnOverAsManyBitsAsTheyShould() {
        byte[] zeros = new byte[100_000];
        int turned = BitSet.valueOf(through(wire(new BenchFault.BitErrors(0.01)), zeros, AT))
                .cardinality();
        // 8000 expected of 800,000, standard deviation 89.
        assertThat(turned).isBetween(7_600, 8_400);
        assertThat(BitSet.valueOf(through(wire(new BenchFault.BitErrors(1)), zeros, AT))
                        .cardinality())
                .isEqualTo(800_000);
    }

    @Test
    void bytesAreLostOrComeTwiceAsOftenAsTheyShould() {
        byte[] many = new byte[100_000];
        // 10,000 expected, standard deviation 95.
        assertThat(through(wire(new BenchFault.Dropped(0.1)), many, AT).length).isBetween(89_500, 90_500);
        assertThat(through(wire(new BenchFault.Doubled(0.1)), many, AT).length).isBetween(109_500, 110_500);
        assertThat(through(wire(new BenchFault.Doubled(1)), "ab".getBytes(US_ASCII), AT))
                .isEqualTo("aabb".getBytes(US_ASCII));
    }

    @Test
    void whatIsDelayedComesInItsOrderAndInItsTime() {
        SpoiltWire wire = wire(new BenchFault.Delayed(10 * MS, 5 * MS));
        for (int i = 0; i < TEXT.length; i++) {
            wire.put(new byte[] {TEXT[i]}, 1, AT + i);
        }
        assertThat(wire.due(AT + 10 * MS - 1)).isEmpty();
        assertThat(wire.due(AT + 15 * MS + TEXT.length)).isEqualTo(TEXT);
    }

    @Test
    void whatIsStalledComesAllAtOnce() {
        SpoiltWire wire = wire(new BenchFault.Stalled(50 * MS));
        assertThat(through(wire, TEXT, AT)).isEmpty();
        assertThat(through(wire, TEXT, AT + 50 * MS - 1)).isEmpty();
        assertThat(wire.due(AT + 50 * MS)).hasSize(2 * TEXT.length);
        assertThat(through(wire, TEXT, AT + 51 * MS)).isEqualTo(TEXT);
    }

    @Test
    void whatIsSentWhileTheCableIsPulledNeverComes() {
        SpoiltWire wire = wire(new BenchFault.Unplugged(50 * MS));
        assertThat(through(wire, TEXT, AT + 50 * MS - 1)).isEmpty();
        assertThat(through(wire, TEXT, AT + 50 * MS)).isEqualTo(TEXT);
    }

    @Test
    void atAnotherBaudRateOtherAndFewerBytesCome() {
        byte[] zeros = new byte[1_000];
        byte[] came = through(wire(new BenchFault.WrongBaud(50 * MS)), zeros, AT);
        assertThat(came.length).isBetween(1, 1_000);
        assertThat(came).isNotEqualTo(Arrays.copyOf(zeros, came.length));
    }

    @Test
    void aStrangerTalksInBetweenForItsTime() {
        SpoiltWire wire = wire(new BenchFault.Stranger(1_000 * MS));
        StringBuilder said = new StringBuilder();
        for (long at = AT; at < AT + 1_000 * MS; at += 20 * MS) {
            said.append(new String(wire.due(at), US_ASCII));
        }
        assertThat(said.toString()).contains("stranger\n");
        assertThat(wire.due(AT + 1_001 * MS)).isEmpty();
    }

    @Test
    void theSameSeedSpoilsTheSameBytes() {
        byte[] many = new byte[10_000];
        assertThat(through(wire(new BenchFault.BitErrors(0.01)), many, AT))
                .isEqualTo(through(wire(new BenchFault.BitErrors(0.01)), many, AT));
    }
}
