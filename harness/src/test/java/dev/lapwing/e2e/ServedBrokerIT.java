package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.transport.mqtt.FreePort;
import dev.lapwing.transport.mqtt.Mosquitto;
import dev.lapwing.transport.mqtt.ThrowAwayAuthority;
import java.io.BufferedReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/** Two processes and a broker between them. */
class ServedBrokerIT {
    private static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/far-cab.yaml");
    private static final String USER = "bay-heron";
    private static final String WORD = "grey-reed-beds-41";
    private static final int SPEED = 2;

    @TempDir
    private Path folder;

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void theBrokerForAFirstTryNeedsNothingElse() throws Exception {
        int port = FreePort.next();
        Process served = Shipped.start("bench", "serve", "--own-broker=" + port, "--speed", SPEED);
        try {
            BufferedReader out = served.inputReader();
            String name = out.readLine();
            assertThat(out.readLine()).isEqualTo("tcp://127.0.0.1:" + port);

            Ended run = run(bench("tcp://127.0.0.1:" + port, name, ""));

            assertThat(run.exit()).as(run.out() + run.err()).isZero();
        } finally {
            ends(served);
        }
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aPortThatAnotherProgramHasIsNotServedAt() throws Exception {
        try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Ended serve = Shipped.lapwing("bench", "serve", "--own-broker=" + taken.getLocalPort());

            assertThat(serve.exit()).isEqualTo(3);
            assertThat(serve.out()).isEmpty();
            assertThat(serve.err()).contains("cannot be started at port " + taken.getLocalPort());
        }
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"mosquitto", "mosquitto_passwd"})
    void neitherTerminalNorRecordHoldsUserNameOrPassword() throws Exception {
        Path passwords = folder.resolve("passwords");
        Process made = new ProcessBuilder("mosquitto_passwd", "-b", "-c", passwords.toString(), USER, WORD).start();
        assertThat(made.waitFor(1, TimeUnit.MINUTES)).isTrue();
        Mosquitto broker = Mosquitto.start(folder, "user root\nallow_anonymous false\npassword_file " + passwords);
        Path secret = folder.resolve("secret.txt");
        Files.writeString(secret, "user: " + USER + "\npassword: " + WORD + "\n", UTF_8);
        Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-------"));
        Process served = Shipped.start(
                List.of("env", "LAPWING_MQTT_USER=" + USER, "LAPWING_MQTT_PASSWORD=" + WORD),
                "bench",
                "serve",
                "--mqtt",
                broker.url(),
                "--speed",
                SPEED);
        try {
            String name = served.inputReader().readLine();
            Ended run = run(bench(broker.url(), name, ", credentials: " + secret));
            Ended stranger = run(bench(broker.url(), name, ""));

            assertThat(run.exit()).as(run.out() + run.err()).isZero();
            assertThat(stranger.exit()).isEqualTo(3);
            assertThat(run.out() + run.err() + stranger.out() + stranger.err()).doesNotContain(USER, WORD);
            assertThat(stranger.out() + stranger.err()).contains("does not accept this user name and password");
            assertThat(holding(USER)).isEmpty();
            assertThat(holding(WORD)).isEmpty();
        } finally {
            ends(served);
            broker.kill();
        }
        assertThat(new String(served.getErrorStream().readAllBytes(), UTF_8)).doesNotContain(USER, WORD);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aPasswordInAUrlIsRefusedAndNotRepeated() throws Exception {
        Ended serve = Shipped.lapwing("bench", "serve", "--mqtt", "tcp://" + USER + ":" + WORD + "@localhost:1883");
        Ended check = Shipped.lapwing("check", bench("tcp://" + USER + ":" + WORD + "@localhost:1883", "bay-2", ""));

        assertThat(serve.exit()).isEqualTo(64);
        assertThat(check.exit()).isEqualTo(64);
        assertThat(serve.out() + serve.err() + check.out() + check.err())
                .contains("is no URL of a broker")
                .doesNotContain(WORD);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"mosquitto", "openssl"})
    void aBrokerWithTlsIsReachedByWhoeverKnowsItsAuthority() throws Exception {
        ThrowAwayAuthority authority = ThrowAwayAuthority.in(folder, "workshop");
        Mosquitto broker =
                Mosquitto.start(folder, "user root\nallow_anonymous true\n" + authority.brokerFor("IP:127.0.0.1"));
        String url = broker.url().replace("tcp:", "ssl:");
        List<String> knowing = List.of("env", "LAPWING_MQTT_AUTHORITY=" + authority.certificates());
        Process served = Shipped.start(knowing, "bench", "serve", "--mqtt", url);
        try {
            String name = served.inputReader().readLine();
            Ended shown = Shipped.ended(Shipped.start(knowing, "bench", "show", "--mqtt", url, "--pings", 5));
            Path file = Shipped.served(
                    folder,
                    "mqtt: {broker: '" + url + "', name: " + name + ", authority: '" + authority.certificates()
                            + "', beat: 500 ms}");
            Ended heard = Shipped.lapwing("bench", "listen", file, "--for", "1s", "--plain");
            Ended stranger = Shipped.lapwing("bench", "show", "--mqtt", url);

            assertThat(shown.exit()).as(shown.err()).isZero();
            assertThat(shown.out()).contains("Bench:      " + name);
            assertThat(heard.exit()).as(heard.err()).isZero();
            assertThat(stranger.exit()).isEqualTo(3);
            assertThat(stranger.err()).contains("nobody who is trusted here vouches for its certificate");
        } finally {
            ends(served);
            broker.kill();
        }
    }

    /** Files of records that hold a text, in whatever they are written. */
    private List<Path> holding(String text) throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("records"))) {
            return files.filter(Files::isRegularFile)
                    .filter(file -> holds(file, text))
                    .toList();
        }
    }

    private static boolean holds(Path file, String text) {
        try {
            return Files.readString(file, ISO_8859_1).contains(text);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private Ended run(Path bench) throws IOException, InterruptedException {
        return Shipped.run(bench, folder.resolve("records"), SEQUENCE);
    }

    private Path bench(String url, String name, String more) throws IOException {
        return Shipped.served(
                folder,
                "mqtt: {broker: \"" + url + "\", name: " + name + ", beat: 500 ms, speed: " + SPEED + " times" + more
                        + "}");
    }

    private static void ends(Process served) throws InterruptedException {
        // Its process alone: what it has said stays to be read.
        served.toHandle().destroy();
        assertThat(served.waitFor(1, TimeUnit.MINUTES)).isTrue();
        assertThat(served.exitValue()).isZero();
    }
}
