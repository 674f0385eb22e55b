package dev.lapwing.transport.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A certificate authority that lives as long as a test, and certificates that it signs. */
public final class ThrowAwayAuthority {
    private final Path folder;
    private final String name;

    private ThrowAwayAuthority(Path folder, String name) {
        this.folder = folder;
        this.name = name;
    }

    public static ThrowAwayAuthority in(Path folder, String name) throws IOException, InterruptedException {
        ThrowAwayAuthority made = new ThrowAwayAuthority(folder, name);
        made.openssl(
                "req",
                "-x509",
                "-newkey",
                "rsa:2048",
                "-nodes",
                "-days",
                "2",
                "-subj",
                "/CN=Harrowmere " + name,
                "-keyout",
                name + ".key",
                "-out",
                name + ".pem");
        return made;
    }

    /** What whoever trusts it is given. */
    public Path certificates() {
        return folder.resolve(name + ".pem");
    }

    /** Lines of the broker's settings, with a certificate made out to that name, such as {@code IP:127.0.0.1}. */
    public String brokerFor(String subject) throws IOException, InterruptedException {
        Files.writeString(folder.resolve("names.txt"), "subjectAltName=" + subject + "\n", UTF_8);
        openssl(
                "req",
                "-newkey",
                "rsa:2048",
                "-nodes",
                "-subj",
                "/CN=broker",
                "-keyout",
                "broker.key",
                "-out",
                "asked");
        openssl(
                "x509",
                "-req",
                "-in",
                "asked",
                "-days",
                "2",
                "-CA",
                name + ".pem",
                "-CAkey",
                name + ".key",
                "-CAcreateserial",
                "-extfile",
                "names.txt",
                "-out",
                "broker.pem");
        return "certfile " + folder.resolve("broker.pem") + "\nkeyfile " + folder.resolve("broker.key") + "\n";
    }

    private void openssl(String... words) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(words));
        command.add(0, "openssl");
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("openssl.log").toFile())
                .start();
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue())
                .as(Files.readString(folder.resolve("openssl.log")))
                .isZero();
    }
}
