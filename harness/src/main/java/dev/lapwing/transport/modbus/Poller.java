package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Polled;
import dev.lapwing.bench.RegisterBlock;
import dev.lapwing.bench.SampleBlock;
import java.io.IOException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.LongSupplier;

/**
 * Reads what is polled and reports it, stamped in the middle of the time in which it may have been so. For whoever has
 * the line.
 */
final class Poller {
    /** Without a good answer of something that is polled for so long, the link is lost, in µs ... */
    private static final long GONE_US_MIN = 1_000_000;
    /** ... or for so many round trips as it allows. */
    private static final long GONE_TRIPS = 3;

    private final LinkChoice.Modbus link;
    private final ModbusLine line;
    private final Queued queued;
    private final LongSupplier nowUs;
    private final List<Polled> polled;
    private final Set<String> signed = new HashSet<>();
    private final Map<Polled, Answered> last = new HashMap<>();
    /** What gave no good answer when it was asked last. */
    private final Set<Polled> unanswered = new HashSet<>();
    /** How often each was due already. */
    private final Map<Polled, Long> turns = new HashMap<>();

    private final Map<String, Integer> levels = new HashMap<>();

    /** When something was last asked with success, and when the answer was there, in bench µs. */
    private record Answered(long sentUs, long hereUs) {}

    Poller(BenchFile file, LinkChoice.Modbus link, ModbusLine line, Queued queued, LongSupplier nowUs) {
        this.link = link;
        this.line = line;
        this.queued = queued;
        this.nowUs = nowUs;
        this.polled = Polled.of(link, file.streams());
        file.points().stream().filter(point -> point.min() < 0).forEach(point -> signed.add(point.name()));
    }

    /** Without a good answer for so long, in µs, the link is lost. */
    static long goneUs(LinkChoice.Modbus link) {
        return Math.max(GONE_US_MIN, GONE_TRIPS * link.roundTripUs());
    }

    /** What is due at a poll, counted from 0; what should have come at one that was left out comes now. */
    List<Polled> due(long poll) {
        return polled.stream()
                .filter(each -> !Long.valueOf(poll / each.polls()).equals(turns.get(each)))
                .toList();
    }

    /** Sees that everything answers, and begins afresh. */
    void begin() throws IOException {
        for (Polled each : polled) {
            for (RegisterBlock block : each.blocks()) {
                line.read(block);
            }
        }
        last.clear();
        unanswered.clear();
        turns.clear();
        levels.clear();
    }

    /** @return false if whoever should take the reports has stopped */
    boolean poll(Polled each, long poll) throws IOException {
        turns.put(each, poll / each.polls());
        long sentUs = nowUs.getAsLong();
        Answered before = last.computeIfAbsent(each, first -> new Answered(sentUs, sentUs));
        Map<String, Integer> read = new HashMap<>();
        try {
            for (RegisterBlock block : each.blocks()) {
                int[] values = line.read(block);
                for (int i = 0; i < values.length; i++) {
                    String point = block.points().get(i);
                    read.put(point, signed.contains(point) ? (short) values[i] : values[i]);
                }
            }
        } catch (IOException e) {
            // One answer may be spoilt; what was missed shows in the distance to the next good one.
            if (nowUs.getAsLong() - before.hereUs() > goneUs(link)) {
                throw e;
            }
            unanswered.add(each);
            return true;
        }
        Answered now = new Answered(sentUs, nowUs.getAsLong());
        last.put(each, now);
        unanswered.remove(each);
        return each.wires() ? edges(each, before, now, read) : samples(each, before, now, read);
    }

    /** A change was after the last request and before this answer; where that is too long, nothing is claimed. */
    private boolean edges(Polled each, Answered before, Answered now, Map<String, Integer> read) {
        boolean held = true;
        boolean late = now.hereUs() - before.sentUs() > link.pollUs() + link.roundTripUs();
        long atUs = (before.sentUs() + now.hereUs()) / 2;
        for (String point : each.stream().points()) {
            if (late) {
                held &= queued.add(listener -> listener.lost(point, before.sentUs(), now.hereUs()));
            }
            int level = read.get(point);
            if (!Integer.valueOf(level).equals(levels.put(point, level))) {
                held &= queued.add(listener -> listener.edge(point, atUs, level == 1));
            }
        }
        return held;
    }

    private boolean samples(Polled each, Answered before, Answered now, Map<String, Integer> read) {
        boolean slow = now.hereUs() - now.sentUs() > link.roundTripUs();
        boolean gap = now.hereUs() - before.hereUs() > each.stream().everyUs() + link.roundTripUs();
        if (slow || gap) {
            return queued.add(listener -> listener.lost(each.stream().name(), before.sentUs(), now.hereUs()));
        }
        long atUs = (now.sentUs() + now.hereUs()) / 2;
        int[] counts = each.stream().points().stream().mapToInt(read::get).toArray();
        return queued.add(listener -> listener.samples(new SampleBlock(each.stream(), atUs, 1, counts)));
    }

    /** Whether a change of a wire until that bench time is still to be found, or that something was missed by then. */
    boolean awaits(long us) {
        return last.entrySet().stream()
                .filter(one -> one.getKey().wires() || unanswered.contains(one.getKey()))
                .anyMatch(one -> one.getValue().sentUs() <= us);
    }

    /** Nothing of what was to be read in that time can be relied upon. */
    void lost(long fromUs, long toUs) {
        for (Polled each : polled) {
            List<String> names = each.wires()
                    ? each.stream().points()
                    : List.of(each.stream().name());
            names.forEach(name -> queued.add(listener -> listener.lost(name, fromUs, toUs)));
        }
    }

    /** Nothing has come, of something at least, since then; now if nothing was asked yet. */
    long silentSinceUs() {
        return last.values().stream().mapToLong(Answered::hereUs).min().orElse(nowUs.getAsLong());
    }
}
