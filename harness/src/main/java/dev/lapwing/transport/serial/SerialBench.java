package dev.lapwing.transport.serial;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.HostCarrier;
import dev.lapwing.transport.linked.LinkLook;
import dev.lapwing.transport.linked.LinkedBench;

/** A bench at a serial device. */
public final class SerialBench {
    private SerialBench() {}

    /**
     * Opens the device and greets the bench.
     *
     * @throws BenchFailure if there is no such device, somebody else has it, nobody answers, or what answers is not
     *     what the file describes
     */
    public static Bench open(BenchFile file, LinkChoice.Serial choice, HostSettings settings, MonotonicClock machine)
            throws BenchFailure {
        HostCarrier line = HostLine.open(choice.device(), choice.baud(), machine);
        return LinkedBench.open(file, choice.beatMs(), settings.at(choice.speed()), line, machine);
    }

    /**
     * Looks at whatever answers there, without arming it.
     *
     * @param pings how many round trips are timed
     * @throws BenchFailure as {@link #open}
     */
    public static LinkLook.Seen look(LinkChoice.Serial choice, HostSettings settings, MonotonicClock machine, int pings)
            throws BenchFailure {
        HostCarrier line = HostLine.open(choice.device(), choice.baud(), machine);
        return LinkLook.at(line, settings.at(choice.speed()), machine, pings);
    }
}
