package dev.lapwing.campaign;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.HostCarrier;
import dev.lapwing.transport.serial.HostEnd;
import dev.lapwing.transport.serial.ServedLine;
import java.io.IOException;
import java.util.SplittableRandom;

/** A pseudo-terminal of its own, whose line spoils what passes as the fault says. */
final class SerialReach implements Reach {
    private static final int BAUD = 4_000_000;

    private final ServedLine line;

    SerialReach(DrawnFault fault, long seed) throws IOException {
        line = ServedLine.open(BAUD, fault.timed(), seed, 1, MonotonicClock.system());
    }

    @Override
    public LinkChoice choice() {
        return new LinkChoice.Serial(line.device(), BAUD, BEAT_MS, 1);
    }

    @Override
    public String inBenchFile() {
        return "link: {serial: {device: " + line.device() + ", baud: " + BAUD + ", beat: " + BEAT_MS + " ms}}\n";
    }

    @Override
    public BenchCarrier bench() {
        return line;
    }

    @Override
    public HostCarrier host(String session) throws BenchFailure {
        return HostEnd.open(line.device(), BAUD);
    }

    @Override
    public void befall(DrawnFault fault, SplittableRandom random) {
        // The line does it by itself.
    }

    @Override
    public void close() {
        line.close();
    }
}
