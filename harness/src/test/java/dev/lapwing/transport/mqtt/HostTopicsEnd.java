package dev.lapwing.transport.mqtt;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.transport.linked.HostCarrier;

/** A host's end of the link over a broker, to be held in a test's own hand. */
public final class HostTopicsEnd {
    private HostTopicsEnd() {}

    public static HostCarrier open(String broker, String bench, String session) throws BenchFailure {
        return HostTopics.open(broker, bench, Credentials.NONE, session);
    }
}
