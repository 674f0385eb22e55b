package dev.lapwing.transport.mqtt;

import java.io.IOException;
import java.net.BindException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.concurrent.atomic.AtomicInteger;

/** Ports of this machine for brokers of tests: each is given once, even while its broker is down. */
public final class FreePort {
    /** Below those that the system hands out by itself. */
    private static final int FROM = 20_000;

    private static final int PORTS = 10_000;
    private static final int TRIED = 100;

    private static final AtomicInteger NEXT =
            new AtomicInteger((int) (ProcessHandle.current().pid() * 97));

    private FreePort() {}

    public static int next() throws IOException {
        for (int i = 0; i < TRIED; i++) {
            int port = FROM + Math.floorMod(NEXT.getAndIncrement(), PORTS);
            try (ServerSocket free = new ServerSocket(port, 1, InetAddress.getLoopbackAddress())) {
                return free.getLocalPort();
            } catch (BindException e) {
                // Somebody else has it.
            }
        }
        throw new IOException("no free port from " + FROM + " on");
    }
}
