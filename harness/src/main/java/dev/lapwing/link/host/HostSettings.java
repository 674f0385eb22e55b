package dev.lapwing.link.host;

import dev.lapwing.link.Wire;

/**
 * Who the host is.
 *
 * @param session eight hex digits, drawn for this session
 * @param host    a text for whoever looks at the bench, at most 64 characters
 * @param hostPpm bound of the rate error of the host's monotonic clock, in parts per million
 */
public record HostSettings(String session, String host, double hostPpm) {
    private static final int HOST_TEXT_MAX = 64;

    public HostSettings {
        if (!Wire.isToken(session) || host.length() > HOST_TEXT_MAX || !(hostPpm >= 0)) {
            throw new IllegalArgumentException("no session '" + session + "' of '" + host + "'");
        }
    }
}
