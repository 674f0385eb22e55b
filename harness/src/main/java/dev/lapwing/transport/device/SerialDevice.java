package dev.lapwing.transport.device;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.util.ArrayList;
import java.util.List;

/**
 * A serial device that could not be opened, as far as the system tells why.
 *
 * @param name   as the user wrote it
 * @param state  how it was found
 * @param group  whose members may use it; empty if the system does not say
 * @param others devices of adapters and boards that are there instead, in the order of their names
 */
public record SerialDevice(String name, State state, String group, List<String> others) {
    private static final Path DEVICES = Path.of("/dev");
    /** What Linux calls adapters and boards on USB. */
    private static final String ADAPTERS = "tty{ACM,USB}*";

    /** How a device was found. */
    public enum State {
        /** There is nothing of that name. */
        MISSING,
        /** It is a file or a folder. */
        NO_DEVICE,
        /** It is there, but this user may not read or write it. */
        NOT_ALLOWED,
        /** It is there, and this user may use it. */
        THERE
    }

    public SerialDevice {
        others = List.copyOf(others);
    }

    /** The device of that name, as it is now. */
    public static SerialDevice at(String name) {
        try {
            Path path = Path.of(name);
            return new SerialDevice(name, stateOf(path), groupOf(path), adapters());
        } catch (InvalidPathException e) {
            return new SerialDevice(name, State.MISSING, "", adapters());
        }
    }

    private static State stateOf(Path path) {
        if (Files.notExists(path)) {
            return State.MISSING;
        }
        if (Files.isRegularFile(path) || Files.isDirectory(path)) {
            return State.NO_DEVICE;
        }
        return Files.isReadable(path) && Files.isWritable(path) ? State.THERE : State.NOT_ALLOWED;
    }

    private static String groupOf(Path path) {
        try {
            return Files.readAttributes(path, PosixFileAttributes.class).group().getName();
        } catch (IOException | UnsupportedOperationException e) {
            return "";
        }
    }

    private static List<String> adapters() {
        List<String> found = new ArrayList<>();
        try (DirectoryStream<Path> devices = Files.newDirectoryStream(DEVICES, ADAPTERS)) {
            devices.forEach(device -> found.add(device.toString()));
        } catch (IOException | DirectoryIteratorException e) {
            return List.of();
        }
        found.sort(null);
        return found;
    }

    /** Whether it is one without hardware, which knows neither parity nor baud rate. */
    public boolean pseudoTerminal() {
        try {
            return Path.of(name).toRealPath().startsWith(DEVICES.resolve("pts"));
        } catch (IOException | InvalidPathException e) {
            return false;
        }
    }

    /** A sentence for the user. */
    public String whyNot() {
        return switch (state) {
            case MISSING ->
                "there is no serial device '" + name + "'; look at the cable and the name"
                        + (others.isEmpty() ? "" : ": there is " + String.join(", ", others));
            case NO_DEVICE ->
                "'" + name + "' is no serial device but a file or a folder; write one such as /dev/ttyACM0";
            case NOT_ALLOWED ->
                "this user may not use the serial device '" + name + "'"
                        + (group.isEmpty()
                                ? "; ask for permission to read and write it"
                                : "; members of the group '" + group + "' may");
            case THERE ->
                "the serial device '" + name + "' cannot be opened; another program has it, or it is no serial device";
        };
    }
}
