package dev.lapwing.transport.mqtt;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.HostCarrier;
import dev.lapwing.transport.linked.LinkLook;
import dev.lapwing.transport.linked.LinkedBench;

/** A bench behind an MQTT broker. */
public final class MqttBench {
    private MqttBench() {}

    /**
     * Connects to the broker and greets the bench.
     *
     * @throws BenchFailure if there is no such broker, it does not let this host in, no bench of that name answers, or
     *     what answers is not what the file describes
     */
    public static Bench open(
            BenchFile file,
            LinkChoice.Mqtt choice,
            Credentials credentials,
            HostSettings settings,
            MonotonicClock machine)
            throws BenchFailure {
        HostCarrier topics = HostTopics.open(choice.broker(), choice.name(), credentials, settings.session());
        return LinkedBench.open(file, choice.beatMs(), settings.at(choice.speed()), topics, machine);
    }

    /**
     * Looks at whatever answers there, without arming it.
     *
     * @param pings how many round trips are timed
     * @throws BenchFailure as {@link #open}
     */
    public static LinkLook.Seen look(
            LinkChoice.Mqtt choice, Credentials credentials, HostSettings settings, MonotonicClock machine, int pings)
            throws BenchFailure {
        HostCarrier topics = HostTopics.open(choice.broker(), choice.name(), credentials, settings.session());
        return LinkLook.at(topics, settings.at(choice.speed()), machine, pings);
    }
}
