package dev.lapwing.transport;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;

/** Mosquitto, as Debian packages it, on a free port of this machine. */
final class Broker implements AutoCloseable {
    private static final int TRIES = 200;
    private static final long BETWEEN_MS = 20;

    private final Process process;
    private final int port;

    private Broker(Process process, int port) {
        this.process = process;
        this.port = port;
    }

    /** @throws IOException if there is no {@code mosquitto} on the path or it does not begin to listen */
    static Broker start(Path folder) throws IOException, InterruptedException {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        Path settings = Files.writeString(folder.resolve("mosquitto.conf"), """
                listener %d 127.0.0.1
                allow_anonymous true
                persistence false
                set_tcp_nodelay true
                log_dest none
                """.formatted(port), UTF_8);
        Process process = new ProcessBuilder("mosquitto", "-c", settings.toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("mosquitto.log").toFile())
                .start();
        Broker broker = new Broker(process, port);
        for (int tries = 0; !broker.accepts(); tries++) {
            if (tries == TRIES) {
                broker.close();
                throw new IOException("mosquitto does not listen");
            }
            Thread.sleep(BETWEEN_MS);
        }
        return broker;
    }

    private boolean accepts() {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            return socket.isConnected();
        } catch (IOException e) {
            return false;
        }
    }

    String url() {
        return "tcp://127.0.0.1:" + port;
    }

    @Override
    public void close() {
        process.destroy();
    }
}
