package dev.lapwing.evidence;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** A record in a directory of its own. */
final class DiskStore implements RecordStore {
    private final Path directory;

    DiskStore(Path directory) {
        this.directory = directory;
    }

    /** Makes the directory, which must not be there yet. */
    static DiskStore create(Path directory) throws IOException {
        Files.createDirectories(directory.toAbsolutePath().getParent());
        Files.createDirectory(directory);
        return new DiskStore(directory);
    }

    @Override
    public String name() {
        return directory.toString();
    }

    @Override
    public LogSink log() throws IOException {
        FileChannel file =
                FileChannel.open(directory.resolve(LOG), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        return new LogSink() {
            @Override
            public void write(byte[] bytes, int length) throws IOException {
                writeAll(file, ByteBuffer.wrap(bytes, 0, length));
            }

            @Override
            public void force() throws IOException {
                file.force(false);
            }

            @Override
            public void close() throws IOException {
                file.close();
            }
        };
    }

    @Override
    public void put(String name, byte[] bytes) throws IOException {
        Path beside = directory.resolve(name + ".new");
        try (FileChannel file = FileChannel.open(
                beside, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            writeAll(file, ByteBuffer.wrap(bytes));
            file.force(true);
        }
        Files.move(
                beside, directory.resolve(name), StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }

    @Override
    public boolean has(String name) {
        return Files.isRegularFile(directory.resolve(name));
    }

    @Override
    public byte[] get(String name) throws IOException {
        return Files.readAllBytes(directory.resolve(name));
    }

    @Override
    public LogBytes logBytes() throws IOException {
        return LogBytes.of(directory.resolve(LOG));
    }

    private static void writeAll(FileChannel file, ByteBuffer bytes) throws IOException {
        while (bytes.hasRemaining()) {
            file.write(bytes);
        }
    }
}
