package dev.lapwing.transport.serial;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.HostCarrier;

/** A host's end of a serial line, to be held in a test's own hand. */
public final class HostEnd {
    private HostEnd() {}

    public static HostCarrier open(String device, int baud) throws BenchFailure {
        return HostLine.open(device, baud, MonotonicClock.system());
    }
}
