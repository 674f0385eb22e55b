package dev.lapwing.link.host;

import dev.lapwing.link.Wire;

/**
 * Who the host is, and how its clock stands to the bench's.
 *
 * @param session eight hex digits, drawn for this session
 * @param host    a text for whoever looks at the bench, at most 64 characters
 * @param hostPpm bound of the rate error of the host's monotonic clock, in parts per million
 * @param speed   how many seconds of bench time go by in one of the host's: 1 for every real bench, more for a computed
 *                one that is served faster than real time
 * @param greetingNanos how long the longest greeting may be on its way, in ns of host time; 0 where nothing bounds it
 */
public record HostSettings(String session, String host, double hostPpm, double speed, long greetingNanos) {
    private static final int HOST_TEXT_MAX = 64;

    public HostSettings {
        if (!Wire.isToken(session)
                || host.length() > HOST_TEXT_MAX
                || !(hostPpm >= 0)
                || !(speed >= 1)
                || greetingNanos < 0) {
            throw new IllegalArgumentException("no session '" + session + "' of '" + host + "'");
        }
    }

    /** With a bench in real time. */
    public HostSettings(String session, String host, double hostPpm) {
        this(session, host, hostPpm, 1);
    }

    /** Over a way that carries any greeting at once. */
    public HostSettings(String session, String host, double hostPpm, double speed) {
        this(session, host, hostPpm, speed, 0);
    }

    /** The same host, over a way that needs so long for the longest greeting, in ns of host time. */
    public HostSettings over(long nanos) {
        return new HostSettings(session, host, hostPpm, speed, nanos);
    }

    /** The same host, with a bench that goes so much faster than real time. */
    public HostSettings at(double times) {
        return new HostSettings(session, host, hostPpm, times, greetingNanos);
    }
}
