package dev.lapwing.link.bench;

import java.util.List;
import java.util.Map;

/** Terminals that leave everything to others, but for what an implementation says itself. */
public interface ForwardingPoints extends BenchPoints {
    /** The others. */
    BenchPoints to();

    @Override
    default int read(String point, long nowUs) {
        return to().read(point, nowUs);
    }

    @Override
    default long drive(Map<String, Integer> counts, long nowUs) {
        return to().drive(counts, nowUs);
    }

    @Override
    default long setDelayUs() {
        return to().setDelayUs();
    }

    @Override
    default long selfTestUs() {
        return to().selfTestUs();
    }

    @Override
    default List<String> failedPoints(long nowUs) {
        return to().failedPoints(nowUs);
    }
}
