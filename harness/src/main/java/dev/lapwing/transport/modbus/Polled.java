package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.Register.Table;
import dev.lapwing.bench.Stream;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/**
 * Points that are read together.
 *
 * @param stream the stream that they are, or one without a name where they are wires
 * @param polls  read at every so many polls
 */
record Polled(Stream stream, List<Block> blocks, long polls) {
    boolean wires() {
        return stream.name().isEmpty();
    }

    /** Everything that is polled of a bench: its wires block by block, then its streams. */
    static List<Polled> of(BenchFile file, LinkChoice.Modbus link) {
        List<Polled> polled = new ArrayList<>();
        for (Block block : Block.of(registers(link, register -> register.table() == Table.DISCRETE_INPUT))) {
            polled.add(new Polled(new Stream("", block.points(), link.pollUs()), List.of(block), 1));
        }
        for (Stream stream : file.streams()) {
            List<Block> blocks =
                    Block.of(registers(link, register -> stream.points().contains(register.point())));
            polled.add(new Polled(stream, blocks, Math.max(1, stream.everyUs() / link.pollUs())));
        }
        return List.copyOf(polled);
    }

    private static List<Register> registers(LinkChoice.Modbus link, Predicate<Register> which) {
        return link.registers().stream().filter(which).toList();
    }
}
