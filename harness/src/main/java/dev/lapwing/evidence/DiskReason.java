package dev.lapwing.evidence;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;

/** Why a disk did not do what it was asked, as a clause for people. */
public final class DiskReason {
    private DiskReason() {}

    public static String of(IOException e) {
        if (e instanceof NoSuchFileException missing) {
            return "there is no '" + missing.getFile() + "', or no folder for it";
        }
        if (e instanceof AccessDeniedException denied) {
            return "the access rights of '" + denied.getFile() + "' do not allow it";
        }
        if (e instanceof FileSystemException disk && disk.getReason() != null) {
            return disk.getFile() == null ? disk.getReason() : "'" + disk.getFile() + "': " + disk.getReason();
        }
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}
