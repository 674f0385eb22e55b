package dev.lapwing.link.host;

/**
 * Messages that came and were left aside.
 *
 * @param strangers of other sessions than the host's, or of a bench time that is still to come, so of another boot
 * @param repeated  reports that came once too often, or after they had been given up
 */
public record LeftAside(long strangers, long repeated) {}
