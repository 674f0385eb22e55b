package dev.lapwing.transport.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.TimeUnit;

/** A broker of its own on a free port of this machine, as Debian packages it. */
public final class Mosquitto {
    private final Path folder;
    private final int port;
    private final String access;
    private Process process;

    private Mosquitto(Path folder, int port, String access) {
        this.folder = folder;
        this.port = port;
        this.access = access;
    }

    public static Mosquitto start(Path folder) throws IOException {
        return start(folder, "allow_anonymous true");
    }

    /** @param access lines of its settings that say who is let in, and how */
    public static Mosquitto start(Path folder, String access) throws IOException {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        Mosquitto broker = new Mosquitto(folder, port, access);
        broker.restart();
        return broker;
    }

    void restart() throws IOException {
        Path settings = folder.resolve("mosquitto.conf");
        Files.writeString(settings, """
                listener %d 127.0.0.1
                %s
                persistence false
                set_tcp_nodelay true
                log_dest none
                """.formatted(port, access), UTF_8);
        process = new ProcessBuilder("mosquitto", "-c", settings.toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("mosquitto.log").toFile())
                .start();
        await("the broker accepts").atMost(Duration.ofSeconds(10)).until(this::accepts);
    }

    private boolean accepts() {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            return socket.isConnected();
        } catch (IOException e) {
            return false;
        }
    }

    int port() {
        return port;
    }

    public String url() {
        return "tcp://127.0.0.1:" + port;
    }

    public void kill() throws InterruptedException {
        process.destroyForcibly();
        process.waitFor(5, TimeUnit.SECONDS);
    }
}
