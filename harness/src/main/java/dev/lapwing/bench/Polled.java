package dev.lapwing.bench;

import dev.lapwing.bench.Register.Table;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/**
 * Points of Modbus modules that are read together.
 *
 * @param stream the stream that they are, or one without a name where they are wires
 * @param polls  read at every so many polls
 */
public record Polled(Stream stream, List<RegisterBlock> blocks, long polls) {
    public Polled {
        blocks = List.copyOf(blocks);
    }

    public boolean wires() {
        return stream.name().isEmpty();
    }

    /** Everything that is polled of a bench: its wires block by block, then its streams. */
    public static List<Polled> of(LinkChoice.Modbus link, List<Stream> streams) {
        List<Polled> polled = new ArrayList<>();
        for (RegisterBlock block : RegisterBlock.of(of(link, register -> register.table() == Table.DISCRETE_INPUT))) {
            polled.add(new Polled(new Stream("", block.points(), link.pollUs()), List.of(block), 1));
        }
        for (Stream stream : streams) {
            List<RegisterBlock> blocks =
                    RegisterBlock.of(of(link, register -> stream.points().contains(register.point())));
            polled.add(new Polled(stream, blocks, Math.max(1, stream.everyUs() / link.pollUs())));
        }
        return List.copyOf(polled);
    }

    private static List<Register> of(LinkChoice.Modbus link, Predicate<Register> which) {
        return link.registers().stream().filter(which).toList();
    }
}
