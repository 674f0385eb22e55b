package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;

/** How far signals leave a remembered level, and when they are back at it. */
final class Recoveries {
    private final Sight sight;

    Recoveries(Sight sight) {
        this.sight = sight;
    }

    /** 0 s where it never left the band: what did not drop out has nothing to recover from. */
    Measurement recovery(Check.Recovery check) {
        Window window = sight.between(0, check.patience());
        String quantity = "time for " + check.signal().spoken() + " to be back at '" + check.remembered() + "'";
        Remembered before = sight.remembered().get(check.remembered());
        if (before == null) {
            return Remembered.missing(check.remembered()).of(quantity, window);
        }
        Optional<Doubt> doubt = sight.cutShort(window.toUs()).or(() -> sight.doubt(check.signal(), window));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, window);
        }
        Sampled sampled = sight.recording().sampled(check.signal()).orElseThrow();
        Entries.Entry entry = new Entries(sight, check.signal(), sampled).into(before.level(), check.band(), window);
        if (entry.outside().isPresent()) {
            return entry.outside().get().never(quantity, List.of(), window);
        }
        if (entry.doubt().isPresent()) {
            return entry.doubt().get().of(quantity, window);
        }
        Estimate since = entry.since().orElseGet(() -> new Estimate(0, Dimension.TIME, List.of()));
        if (entry.cutOff().isPresent() && !check.limit().excludes(since)) {
            return entry.cutOff().get().of(quantity, window);
        }
        return new Measured(since, quantity, entry.marks(), window);
    }

    /** The extreme nearest the limit, minus the remembered level. */
    Measurement departure(Check.Departure check) {
        Window window = sight.over(check.over());
        String quantity = check.signal().spoken() + " at its furthest minus '" + check.remembered() + "'";
        Remembered before = sight.remembered().get(check.remembered());
        if (before == null) {
            return Remembered.missing(check.remembered()).of(quantity, window);
        }
        Optional<Doubt> doubt = sight.unfinished(check.over()).or(() -> sight.doubt(check.signal(), window));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, window);
        }
        Sampled sampled = sight.recording().sampled(check.signal()).orElseThrow();
        Extremes extremes =
                Extremes.of(sampled.trace(), window, Watched.WIDTH_US).orElseThrow();
        Limit limit = check.limit();
        double level = before.level().value();
        boolean high = limit.margin(extremes.greatest() - level) <= limit.margin(extremes.least() - level);
        double value = high ? extremes.greatest() : extremes.least();
        long atUs = high ? extremes.greatestUs() : extremes.leastUs();
        Estimate extreme = Stays.extreme(sampled, check.signal().dimension(), extremes, value, window);
        Estimate off = extreme.minus(before.level());
        Optional<Doubt> cutOff = limit.excludes(off)
                ? Optional.empty()
                : Doubt.cutOff(check.signal(), sampled, extremes, limit, sight.words());
        if (cutOff.isPresent()) {
            return cutOff.get().of(quantity, window);
        }
        Mark mark = new Mark(
                check.signal().key(),
                atUs,
                value,
                (high ? "highest, " : "lowest, ") + sight.words().value(off.value(), off.dimension()) + " away");
        return new Measured(off, quantity, List.of(mark), window);
    }
}
