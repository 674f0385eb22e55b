package dev.lapwing.cli;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** What a bench reads now, point by point, and what came of each since somebody last asked for a fresh start. */
final class LiveReadings implements BenchListener {
    private final Map<String, Integer> counts = new HashMap<>();
    private final Map<String, Boolean> levels = new HashMap<>();
    private final Map<String, CountSeries> series = new HashMap<>();
    private final List<String> troubles = new ArrayList<>();
    private Optional<String> becameSafe = Optional.empty();
    private long losses;

    /** Gathers afresh from the next sample on. */
    void gatherAfresh() {
        series.clear();
        losses = 0;
    }

    /** The last count of a sampled point; empty before the first. */
    OptionalInt count(String point) {
        Integer count = counts.get(point);
        return count == null ? OptionalInt.empty() : OptionalInt.of(count);
    }

    /** The level of a digital point; empty before it was told. */
    Optional<Boolean> level(String point) {
        return Optional.ofNullable(levels.get(point));
    }

    /** Every count of a sampled point since the fresh start. */
    CountSeries gathered(String point) {
        return series.getOrDefault(point, new CountSeries());
    }

    /** How often reports were lost since the fresh start. */
    long losses() {
        return losses;
    }

    /** Why the bench made itself safe, if it did. */
    Optional<String> becameSafe() {
        return becameSafe;
    }

    /** The faults told since this was last asked. */
    List<String> takeTroubles() {
        List<String> taken = List.copyOf(troubles);
        troubles.clear();
        return taken;
    }

    @Override
    public void samples(SampleBlock block) {
        List<String> points = block.stream().points();
        for (int i = 0; i < points.size(); i++) {
            CountSeries into = series.computeIfAbsent(points.get(i), point -> new CountSeries());
            for (int row = 0; row < block.rows(); row++) {
                into.add(block.counts()[row * points.size() + i]);
            }
            if (block.rows() > 0) {
                counts.put(points.get(i), block.counts()[(block.rows() - 1) * points.size() + i]);
            }
        }
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        levels.put(point, level);
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        // What an output did is seen in the readings.
    }

    @Override
    public void safe(long atUs, String why) {
        becameSafe = Optional.of(why);
    }

    @Override
    public void fault(long atUs, String point, String why) {
        troubles.add(point.isEmpty() ? why : point + ": " + why);
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        losses++;
    }
}
