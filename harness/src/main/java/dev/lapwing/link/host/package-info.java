/**
 * The host's side of the link: {@link dev.lapwing.link.host.HostSession} keeps one session with a bench, and tells what
 * happens as {@link dev.lapwing.link.host.HostEvent}s. It holds no thread and no clock: a transport steps it, feeds it
 * what came and sends what it says.
 */
@NullMarked
package dev.lapwing.link.host;

import org.jspecify.annotations.NullMarked;
