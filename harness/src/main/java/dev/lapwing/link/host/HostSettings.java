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
 */
public record HostSettings(String session, String host, double hostPpm, double speed) {
    private static final int HOST_TEXT_MAX = 64;

    public HostSettings {
        if (!Wire.isToken(session) || host.length() > HOST_TEXT_MAX || !(hostPpm >= 0) || !(speed >= 1)) {
            throw new IllegalArgumentException("no session '" + session + "' of '" + host + "'");
        }
    }

    /** With a bench in real time. */
    public HostSettings(String session, String host, double hostPpm) {
        this(session, host, hostPpm, 1);
    }

    /** The same host, with a bench that goes so much faster than real time. */
    public HostSettings at(double times) {
        return new HostSettings(session, host, hostPpm, times);
    }
}
