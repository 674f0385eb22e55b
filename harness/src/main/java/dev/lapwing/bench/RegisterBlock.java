package dev.lapwing.bench;

import dev.lapwing.bench.Register.Table;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;

/**
 * Registers without a gap, which one request reads or writes.
 *
 * @param points names of the points, the first at {@code first}
 */
public record RegisterBlock(int module, Table table, int first, List<String> points) {
    /** Well below what a request may carry: 125 registers read, 123 written. */
    private static final int POINTS_MAX = 100;

    public RegisterBlock {
        points = List.copyOf(points);
    }

    /** Address of the last. */
    public int last() {
        return first + points.size() - 1;
    }

    /** As few blocks as hold those registers and no others. */
    public static List<RegisterBlock> of(Collection<Register> registers) {
        List<RegisterBlock> blocks = new ArrayList<>();
        registers.stream()
                .sorted(Comparator.comparing(Register::module)
                        .thenComparing(Register::table)
                        .thenComparing(Register::address))
                .forEach(register -> add(register, blocks));
        return blocks;
    }

    private static void add(Register register, List<RegisterBlock> blocks) {
        RegisterBlock last = blocks.isEmpty() ? null : blocks.get(blocks.size() - 1);
        boolean goesOn = last != null
                && last.module == register.module()
                && last.table == register.table()
                && last.last() + 1 == register.address()
                && last.points.size() < POINTS_MAX;
        if (goesOn) {
            List<String> points = new ArrayList<>(last.points);
            points.add(register.point());
            blocks.set(blocks.size() - 1, new RegisterBlock(last.module, last.table, last.first, points));
        } else {
            blocks.add(new RegisterBlock(
                    register.module(), register.table(), register.address(), List.of(register.point())));
        }
    }
}
