package dev.lapwing.transport.mqtt;

import static dev.lapwing.Patience.await;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.File;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** A broker of its own on a free port of this machine, as Debian packages it. */
public final class Mosquitto {
    private static final File NOTHING = new File("/dev/null");

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
        Mosquitto broker = new Mosquitto(folder, FreePort.next(), access);
        broker.restart();
        return broker;
    }

    public void restart() throws IOException {
        Path settings = folder.resolve("mosquitto.conf");
        Files.writeString(settings, """
                listener %d 127.0.0.1
                %s
                persistence false
                set_tcp_nodelay true
                log_dest none
                """.formatted(port, access), UTF_8);
        process = new ProcessBuilder("mosquitto", "-c", settings.toString())
                .redirectInput(NOTHING)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("mosquitto.log").toFile())
                .start();
        await("the broker accepts").until(this::accepts);
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
        process.waitFor(1, TimeUnit.MINUTES);
    }

    /** It stands still, and its connections with it, until {@link #resume}. */
    public void halt() throws IOException, InterruptedException {
        signal("STOP");
    }

    public void resume() throws IOException, InterruptedException {
        signal("CONT");
    }

    private void signal(String name) throws IOException, InterruptedException {
        new ProcessBuilder("kill", "-" + name, Long.toString(process.pid()))
                .redirectInput(NOTHING)
                .redirectErrorStream(true)
                .redirectOutput(NOTHING)
                .start()
                .waitFor(1, TimeUnit.MINUTES);
    }
}
