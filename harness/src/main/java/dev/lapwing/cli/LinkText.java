package dev.lapwing.cli;

import dev.lapwing.bench.RoundTrips;
import dev.lapwing.link.LinkPoint;
import java.util.Locale;

/** What a look at a bench tells of its answers and points, whatever link it answers at. */
final class LinkText {
    private LinkText() {}

    /** {@code half within 5.487 ms, 99 % within 17.264 ms, all within 19.827 ms of 200 pings; 0 lost}. */
    static String answers(RoundTrips trips) {
        return String.format(
                Locale.ROOT,
                "half within %.3f ms, 99 %% within %.3f ms, all within %.3f ms of %d pings; %d lost",
                trips.percentileMs(50),
                trips.percentileMs(99),
                trips.percentileMs(100),
                trips.asked(),
                trips.lost());
    }

    /**
     * Its name, kind and range, then whatever else is known of it, and its safe state last.
     *
     * @param more what the link knows of it
     */
    static String point(LinkPoint point, String more) {
        String range = point.kind().digital() ? "" : point.min() + " to " + point.max() + " counts";
        String line = String.format(
                Locale.ROOT,
                "  %-16s %-12s %-22s %s",
                point.name(),
                point.kind().text(),
                range,
                more);
        return (line.stripTrailing() + (point.kind().output() ? "  " + safe(point) : "")).stripTrailing();
    }

    private static String safe(LinkPoint point) {
        if (point.kind().digital()) {
            return point.safe() == 1 ? "safe on" : "safe off";
        }
        return "safe at " + point.safe() + " counts";
    }
}
