package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import org.junit.jupiter.api.Test;

class DiskReasonTest {
    @Test
    void aReasonIsAClauseAndNeverANameAlone() {
        assertThat(DiskReason.of(new NoSuchFileException("a/b.html")))
                .isEqualTo("there is no 'a/b.html', or no folder for it");
        assertThat(DiskReason.of(new AccessDeniedException("a"))).isEqualTo("the access rights of 'a' do not allow it");
        assertThat(DiskReason.of(new FileSystemException("a", null, "Not a directory")))
                .isEqualTo("'a': Not a directory");
        assertThat(DiskReason.of(new IOException("No space left on device"))).isEqualTo("No space left on device");
    }
}
