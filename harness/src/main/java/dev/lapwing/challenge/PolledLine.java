package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.simulated.Replay;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Modules that stamp nothing, read over and over: a reading is taken at some time between request and answer and
 * stamped by the host with the middle of the two; a change lay between the request before and this answer, and is
 * stamped with the middle of those.
 */
final class PolledLine {
    /** The least share of the bound that a round trip takes. */
    private static final double QUICKEST = 0.3;

    private final Replay replay;
    private final LinkChoice.Modbus link;
    private final List<Stream> streams;
    private final List<String> wires;
    private final SplittableRandom random;
    private final Map<String, Boolean> levels = new HashMap<>();

    PolledLine(Replay replay, BenchFile file, LinkChoice.Modbus link, SplittableRandom random) {
        this.replay = replay;
        this.link = link;
        this.random = random;
        streams = file.streams();
        wires = file.points().stream()
                .filter(point -> point.kind() == PointKind.DIGITAL_IN)
                .map(Point::name)
                .toList();
    }

    /** Reports everything up to a true time since the start, in ns. To be called once. */
    void play(long untilNs, BenchListener listener) {
        long pollNs = link.pollUs() * 1000;
        long beforeUs = replay.benchUs(0);
        for (long sentNs = random.nextLong(pollNs); sentNs + pollNs <= untilNs; sentNs += pollNs) {
            long takesNs = Math.round(link.roundTripUs() * 1e3 * (QUICKEST + (1 - QUICKEST) * random.nextDouble()));
            long readNs = sentNs + Math.round(takesNs * random.nextDouble());
            long sentUs = replay.benchUs(sentNs);
            long hereUs = replay.benchUs(sentNs + takesNs);
            for (String wire : wires) {
                boolean level = replay.read(wire, readNs) != 0;
                if (!Boolean.valueOf(level).equals(levels.put(wire, level))) {
                    listener.edge(wire, (beforeUs + hereUs) / 2, level);
                }
            }
            for (Stream stream : streams) {
                int[] counts = stream.points().stream()
                        .mapToInt(point -> replay.read(point, readNs))
                        .toArray();
                listener.samples(new SampleBlock(stream, (sentUs + hereUs) / 2, 1, counts));
            }
            beforeUs = sentUs;
        }
    }
}
