package dev.lapwing.link;

import java.util.List;
import java.util.Optional;

/**
 * Who a bench is and what it has; the same through one boot.
 *
 * @param link      version of the link that it speaks
 * @param boot      eight hex digits, drawn at each start
 * @param clockPpm  bound of its clock's rate error, in parts per million
 * @param queue     timed sets that it can hold, at least 1
 * @param maxBeatMs greatest heartbeat limit, in ms, {@link Wire#BEAT_MS_MIN} to {@link Wire#BEAT_MS_MAX}; up to
 *                  {@link Wire#SPEED_MAX} times more for a computed bench, of its own time and with nothing live
 * @param maxLine   greatest length of a host's line, in bytes, at least {@link Wire#HOST_BYTES_MAX}
 * @param dense     whether it can send samples as CBOR
 */
public record BenchCard(
        int link,
        String name,
        String boot,
        int clockPpm,
        int queue,
        int maxBeatMs,
        int maxLine,
        boolean dense,
        List<LinkPoint> points) {
    public BenchCard {
        points = List.copyOf(points);
        require(Wire.isName(name), "its name");
        require(Wire.isToken(boot), "its boot");
        require(clockPpm >= 0, "its clock's rate bound");
        require(queue >= 1, "its queue");
        require(maxBeatMs >= Wire.BEAT_MS_MIN && maxBeatMs <= Wire.BEAT_MS_MAX * Wire.SPEED_MAX, "its heartbeat limit");
        require(maxLine >= Wire.HOST_BYTES_MAX, "its longest line");
        require(points.stream().map(LinkPoint::name).distinct().count() == points.size(), "points of one name");
    }

    /** Whether it says by its name that it computes what it reports. */
    public boolean computed() {
        return name.startsWith("simulated-");
    }

    public Optional<LinkPoint> point(String wanted) {
        return points.stream().filter(point -> point.name().equals(wanted)).findFirst();
    }

    private static void require(boolean good, String what) {
        if (!good) {
            throw new IllegalArgumentException("the bench says of itself what cannot be: " + what);
        }
    }
}
