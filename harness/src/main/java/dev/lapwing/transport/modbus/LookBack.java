package dev.lapwing.transport.modbus;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.RegisterBlock;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.LongSupplier;

/**
 * Reads outputs back, one block after the other, while they are driven: a module that only has outputs is asked nothing
 * else for minutes, and one that started anew, or whose own watchdog let go, holds other outputs than it was told. For
 * whoever has the line.
 */
final class LookBack {
    /** How often each block is looked at, in µs of bench time. */
    private static final long EVERY_US = 500_000;
    /** A look that found no idle line for so long comes before the next poll, in µs. */
    private static final long LATE_US = 300_000;

    private final ModbusLine line;
    private final LongSupplier nowUs;
    private final long roundTripUs;
    private final long goneUs;
    private final long contactsUs;
    private final Deque<RegisterBlock> turns;
    private final Map<RegisterBlock, Long> goodUs = new HashMap<>();
    private long dueUs;

    LookBack(LinkChoice.Modbus link, ModbusLine line, LongSupplier nowUs) {
        this.line = line;
        this.nowUs = nowUs;
        this.roundTripUs = link.roundTripUs();
        this.goneUs = Poller.goneUs(link);
        List<Register> outputs = link.registers().stream()
                .filter(register -> register.table().driven())
                .toList();
        this.contactsUs = outputs.stream()
                .map(Register::contact)
                .mapToLong(contact -> Math.max(contact.operateUs(), contact.releaseUs()) + contact.spreadUs())
                .max()
                .orElse(0);
        this.turns = new ArrayDeque<>(RegisterBlock.of(outputs));
    }

    /** Looks at every output. Throws if one is not as it was driven, or says nothing of it. */
    void begin(Map<String, Integer> driven) throws IOException {
        line.pause(contactsUs);
        for (RegisterBlock block : turns) {
            Optional<String> other = other(block, driven);
            if (other.isPresent()) {
                throw new IOException(other.get());
            }
        }
        dueUs = nowUs.getAsLong() + everyUs();
    }

    /** Outputs were just driven: some modules tell how the contact is, which follows later. */
    void drove() {
        dueUs = Math.max(dueUs, nowUs.getAsLong() + contactsUs);
    }

    /** Whether the next look is due and fits in so long an idle time, or cannot wait for one. */
    boolean wants(long idleUs) {
        long lateUs = nowUs.getAsLong() - dueUs;
        return !turns.isEmpty() && lateUs >= 0 && (2 * idleUs >= roundTripUs || lateUs >= LATE_US);
    }

    /**
     * Looks at the next block.
     *
     * @return what is otherwise than it was driven; empty if all is well, or one answer was spoilt
     * @throws IOException if nothing good has come of that block for too long
     */
    Optional<String> next(Map<String, Integer> driven) throws IOException {
        RegisterBlock block = turns.remove();
        turns.add(block);
        dueUs = nowUs.getAsLong() + everyUs();
        try {
            return other(block, driven);
        } catch (IOException e) {
            if (nowUs.getAsLong() - goodUs.get(block) > goneUs) {
                throw e;
            }
            // Its turn comes again at once.
            turns.remove(block);
            turns.addFirst(block);
            return Optional.empty();
        }
    }

    /** Since then nobody has seen all outputs as they were driven, in bench µs. */
    long goodUs() {
        return goodUs.values().stream().mapToLong(Long::longValue).min().orElse(nowUs.getAsLong());
    }

    /** What of a block is otherwise than it was driven. */
    private Optional<String> other(RegisterBlock block, Map<String, Integer> driven) throws IOException {
        int[] back = line.readBack(block);
        List<String> other = new ArrayList<>();
        for (int i = 0; i < back.length; i++) {
            String point = block.points().get(i);
            int told = driven.get(point) & 0xFFFF;
            if (back[i] != told) {
                other.add("'" + point + "' of module " + block.module() + " was driven to " + told + " and reads back "
                        + back[i]);
            }
        }
        if (other.isEmpty()) {
            goodUs.put(block, nowUs.getAsLong());
            return Optional.empty();
        }
        return Optional.of(String.join(", ", other) + "; look whether the module lost its power for a moment, has a"
                + " watchdog of its own that let go, or has another master");
    }

    private long everyUs() {
        return EVERY_US / Math.max(1, turns.size());
    }
}
