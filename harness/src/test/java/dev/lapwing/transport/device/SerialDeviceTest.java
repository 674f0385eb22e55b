package dev.lapwing.transport.device;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.transport.device.SerialDevice.State;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Why a serial device cannot be opened, in words that say what to do. */
class SerialDeviceTest {
    @TempDir
    private Path folder;

    @Test
    void oneThatIsNotThereIsNamed() {
        assertThat(SerialDevice.at("/dev/no-such-device").whyNot())
                .startsWith("there is no serial device '/dev/no-such-device'; look at the cable and the name");
    }

    @Test
    void whatIsThereInsteadIsNamed() {
        SerialDevice missing = new SerialDevice("/dev/ttyACM0", State.MISSING, "", List.of("/dev/ttyACM1"));
        assertThat(missing.whyNot()).endsWith("look at the cable and the name: there is /dev/ttyACM1");
    }

    @Test
    void aFileAndAFolderAreNone() throws IOException {
        Path file = Files.createFile(folder.resolve("bench.yaml"));

        assertThat(SerialDevice.at(file.toString()).whyNot()).contains("bench.yaml' is no serial device");
        assertThat(SerialDevice.at(folder.toString()).whyNot()).contains("is no serial device");
        assertThat(SerialDevice.at("/dev/\0").state()).isEqualTo(State.MISSING);
    }

    @Test
    void whoseMembersMayUseItIsSaid() {
        SerialDevice closed = new SerialDevice("/dev/ttyUSB0", State.NOT_ALLOWED, "dialout", List.of());
        assertThat(closed.whyNot())
                .isEqualTo(
                        "this user may not use the serial device '/dev/ttyUSB0'; members of the group 'dialout' may");
    }

    @Test
    void oneThatIsTakenMayBeAnothersOrNone() {
        assertThat(SerialDevice.at("/dev/null").whyNot()).contains("another program has it, or it is no serial device");
        assertThat(SerialDevice.at("/dev/null").pseudoTerminal()).isFalse();
    }
}
