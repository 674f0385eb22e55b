package dev.lapwing.transport.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.BenchFailure;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A password comes from a file that few may read, and goes nowhere but to the broker. */
class CredentialsTest {
    @TempDir
    private Path folder;

    private Path file(String text, String rights) throws Exception {
        Path file = Files.writeString(folder.resolve("secret"), text, UTF_8);
        return Files.setPosixFilePermissions(file, PosixFilePermissions.fromString(rights));
    }

    @Test
    void aFileOfTheUserOrTheGroupIsRead() throws Exception {
        String text = "# bay 2\r\nuser: bay-2\r\npassword:  with a blank \r\n\r\n";
        for (String rights : new String[] {"rw-------", "r--r-----"}) {
            Credentials read = Credentials.of(file(text, rights));
            assertThat(read.user()).contains("bay-2");
            assertThat(read.password()).contains("with a blank");
            assertThat(read.toString()).isEqualTo("credentials of a user");
            Files.delete(folder.resolve("secret"));
        }
    }

    @Test
    void aFileThatEverybodyReadsIsRefusedWithWhatToDo() throws Exception {
        Path file = file("user: bay-2\npassword: sesame\n", "rw-r--r--");

        assertThatThrownBy(() -> Credentials.of(file))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("may be read by everybody")
                .hasMessageContaining("chmod o-r " + file)
                .hasMessageNotContaining("sesame");
    }

    @Test
    void whatStandsInABadFileIsNotRepeated() throws Exception {
        Path file = file("sesame\n", "rw-------");

        assertThatThrownBy(() -> Credentials.of(file)).hasMessageNotContaining("sesame");
        assertThatThrownBy(() -> Credentials.of(folder.resolve("none"))).hasMessageContaining("cannot be read");
    }
}
