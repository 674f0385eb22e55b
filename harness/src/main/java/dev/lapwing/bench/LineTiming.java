package dev.lapwing.bench;

import dev.lapwing.bench.Register.Table;
import java.util.Collection;
import java.util.List;

/**
 * How long things take on a Modbus RTU line at the least: characters and the silence between frames, with modules that
 * answer at once. Source: Modbus over Serial Line V1.02, sections 2.5.1 (a character has 11 bits whatever its parity)
 * and 2.5.1.1 (3.5 characters of silence between frames; 1.750 ms above 19200 baud), and the frames of the Modbus
 * Application Protocol V1.1b3, chapter 6. Section numbers from memory.
 *
 * @param baud of the line
 */
public record LineTiming(int baud) {
    private static final int CHARACTER_BITS = 11;
    private static final int FAST_BAUD = 19_200;
    private static final double FAST_SILENCE_US = 1_750;
    private static final double SILENCE_CHARACTERS = 3.5;
    /** Module, function and CRC. */
    private static final int FRAME_BYTES = 4;
    /** Address and number, or address and value. */
    private static final int HEAD_BYTES = 4;

    /** Silence that ends a frame, in µs. */
    public double silenceUs() {
        return baud > FAST_BAUD ? FAST_SILENCE_US : SILENCE_CHARACTERS * characterUs();
    }

    private double characterUs() {
        return CHARACTER_BITS * 1e6 / baud;
    }

    /** From the first character of a request for this block to the last of its answer, in µs. */
    public double roundTripUs(RegisterBlock block) {
        int count = block.points().size();
        boolean bits = block.table() == Table.COIL || block.table() == Table.DISCRETE_INPUT;
        int data = bits ? (count + 7) / 8 : 2 * count;
        boolean driven = block.table().driven();
        int request = FRAME_BYTES + HEAD_BYTES + (driven && count > 1 ? 1 + data : 0);
        int answer = FRAME_BYTES + (driven ? HEAD_BYTES : 1 + data);
        return (request + answer) * characterUs() + silenceUs();
    }

    /** From the first character of the first request to the last of the last answer, in µs; 0 for no block. */
    public double roundTripUs(List<RegisterBlock> blocks) {
        double sum = blocks.stream().mapToDouble(this::roundTripUs).sum();
        return blocks.isEmpty() ? 0 : sum + (blocks.size() - 1) * silenceUs();
    }

    /** For every block once and the silence after each, in µs. */
    public double pollUs(Collection<Polled> polled) {
        return polled.stream()
                .flatMap(each -> each.blocks().stream())
                .mapToDouble(block -> roundTripUs(block) + silenceUs())
                .sum();
    }
}
