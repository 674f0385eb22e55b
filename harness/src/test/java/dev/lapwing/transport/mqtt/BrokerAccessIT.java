package dev.lapwing.transport.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.NeedsTools;
import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.BenchCard;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.ServedBench;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A broker that wants TLS, a user name and a password: who is let in, and what the others are told. */
@NeedsTools({"mosquitto", "mosquitto_passwd", "openssl"})
class BrokerAccessIT {
    private static final MonotonicClock CLOCK = MonotonicClock.system();
    private static final String WORD = "grey-heron-17";

    @TempDir
    private Path folder;

    private ThrowAwayAuthority authority;
    private Mosquitto broker;

    @BeforeEach
    void authority() throws Exception {
        authority = ThrowAwayAuthority.in(folder, "workshop");
    }

    @AfterEach
    void stop() throws InterruptedException {
        broker.kill();
    }

    private void start(String name) throws IOException, InterruptedException {
        Path passwords = folder.resolve("passwords");
        Process made = new ProcessBuilder("mosquitto_passwd", "-b", "-c", passwords.toString(), "bay-2", WORD)
                .redirectErrorStream(true)
                .start();
        assertThat(made.waitFor(1, TimeUnit.MINUTES)).isTrue();
        broker = Mosquitto.start(
                folder,
                "user root\nallow_anonymous false\npassword_file " + passwords + "\n" + authority.brokerFor(name));
    }

    private String url() {
        return "ssl://127.0.0.1:" + broker.port();
    }

    private Credentials of(String word) {
        return new Credentials(Optional.of("bay-2"), Optional.of(word), Optional.of(authority.certificates()));
    }

    @Test
    void whoIsTrustedAndKnownIsLetIn() throws Exception {
        start("IP:127.0.0.1");
        Path file = folder.resolve("secret.txt");
        Files.writeString(file, "# of the bay\nuser: bay-2\npassword: " + WORD + "\n", UTF_8);
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
        Credentials fromFile = Credentials.of(file).vouchedBy(authority.certificates());
        SimulatedTerminals terminals = FarCab.terminals();
        BenchCard card = terminals.card(FarCab.token(1));
        ServedTopics topics = ServedTopics.open(url(), card, fromFile);
        try (ServedBench served = new ServedBench(card, terminals, topics, 1, CLOCK)) {
            served.start();
            LinkChoice.Mqtt link = new LinkChoice.Mqtt(url(), card.name(), 500, 1);
            try (Bench bench = MqttBench.open(FarCab.reached(link), link, fromFile, FarCab.host(2), CLOCK)) {
                bench.arm();
                assertThat(bench.identity().name()).isEqualTo(card.name());
            }
        }
        assertThat(fromFile.toString()).doesNotContain("bay-2", WORD);
    }

    @Test
    void aWrongPasswordIsToldFromAWrongCertificate() throws Exception {
        start("IP:127.0.0.1");

        refused(of("grey-heron-18"), "does not accept this user name and password");
        refused(
                new Credentials(Optional.empty(), Optional.empty(), Optional.of(authority.certificates())),
                "does not accept this user name and password");
    }

    @Test
    void aCertificateOfNobodyThatIsTrustedIsRefused() throws Exception {
        start("IP:127.0.0.1");
        ThrowAwayAuthority another = ThrowAwayAuthority.in(folder, "another");

        refused(of(WORD).vouchedBy(another.certificates()), "nobody who is trusted here vouches for its certificate");
        refused(new Credentials(Optional.of("bay-2"), Optional.of(WORD)), "nobody who is trusted here vouches");
    }

    @Test
    void aCertificateMadeOutToAnotherNameIsRefused() throws Exception {
        start("DNS:broker.harrowmere.example");

        refused(of(WORD), "its certificate is made out to another name");
    }

    @Test
    void aBrokerWithoutTlsIsTold() throws Exception {
        broker = Mosquitto.start(folder);

        refused(of(WORD), "hangs up at once");
    }

    @Test
    void filesThatCannotBeReadAreNamed() throws Exception {
        broker = Mosquitto.start(folder);
        Path file = folder.resolve("secret.txt");
        refused(of(WORD).vouchedBy(folder.resolve("none.pem")), "none.pem");
        Files.writeString(file, "no certificate", UTF_8);
        refused(of(WORD).vouchedBy(file), "secret.txt");
        Files.writeString(file, WORD, UTF_8);
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
        assertThatThrownBy(() -> Credentials.of(file))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("'user: NAME'")
                .message()
                .doesNotContain(WORD);
    }

    private void refused(Credentials credentials, String words) {
        LinkChoice.Mqtt link = new LinkChoice.Mqtt(url(), "bay-2", 500, 1);
        assertThatThrownBy(() -> MqttBench.open(FarCab.reached(link), link, credentials, FarCab.host(2), CLOCK))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining(words)
                .message()
                .doesNotContain(WORD);
    }
}
