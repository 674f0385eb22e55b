package dev.lapwing.transport.serial;

import com.sun.jna.Library;
import com.sun.jna.Memory;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/**
 * The other end of a serial device that has no hardware: what is written here is read there. Neither reading nor
 * writing blocks for longer than it is told. Numbers of flags and requests are those of Linux.
 */
final class PseudoTerminal implements AutoCloseable {
    private static final int O_RDWR = 2;
    private static final int O_NOCTTY = 0x100;
    private static final int O_NONBLOCK = 0x800;
    private static final short POLLIN = 1;
    private static final short POLLHUP = 0x10;
    private static final int TCSANOW = 0;
    /** More than a termios takes on any Linux. */
    private static final int TERMIOS_BYTES = 256;

    private static final int NAME_BYTES = 128;
    private static final int BUFFER_BYTES = 32_768;

    private final LibC libC;
    private final int master;
    private final String device;
    private final Memory polled = new Memory(8);
    private final Memory in = new Memory(BUFFER_BYTES);
    private final Memory out = new Memory(BUFFER_BYTES);
    private boolean closed;

    /** What is called of the system's C library. */
    interface LibC extends Library {
        int posix_openpt(int flags);

        int grantpt(int fd);

        int unlockpt(int fd);

        int ptsname_r(int fd, byte[] name, NativeLong size);

        int open(String path, int flags);

        int close(int fd);

        int tcgetattr(int fd, Memory termios);

        void cfmakeraw(Memory termios);

        int tcsetattr(int fd, int when, Memory termios);

        int poll(Memory fds, NativeLong count, int timeoutMs);

        NativeLong read(int fd, Memory buffer, NativeLong size);

        NativeLong write(int fd, Memory buffer, NativeLong size);
    }

    private PseudoTerminal(LibC libC, int master, String device) {
        this.libC = libC;
        this.master = master;
        this.device = device;
        polled.setInt(0, master);
    }

    /** @throws IOException where the system has none to give */
    static PseudoTerminal open() throws IOException {
        LibC libC;
        try {
            libC = Native.load("c", LibC.class);
        } catch (UnsatisfiedLinkError e) {
            throw new IOException("a served device needs the C library's pseudo-terminals: " + e.getMessage(), e);
        }
        int master = libC.posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
        byte[] name = new byte[NAME_BYTES];
        if (master < 0
                || libC.grantpt(master) != 0
                || libC.unlockpt(master) != 0
                || libC.ptsname_r(master, name, new NativeLong(NAME_BYTES)) != 0) {
            throw new IOException("this system gives no pseudo-terminal (error " + Native.getLastError() + ")");
        }
        int length = 0;
        while (name[length] != 0) {
            length++;
        }
        PseudoTerminal terminal =
                new PseudoTerminal(libC, master, new String(name, 0, length, StandardCharsets.US_ASCII));
        terminal.makeRaw();
        return terminal;
    }

    /** Bytes pass as they are: no echo, no line editing, no signals. Stays so when the device is closed. */
    private void makeRaw() throws IOException {
        int slave = libC.open(device, O_RDWR | O_NOCTTY);
        Memory termios = new Memory(TERMIOS_BYTES);
        if (slave < 0 || libC.tcgetattr(slave, termios) != 0) {
            throw new IOException(device + " cannot be set up (error " + Native.getLastError() + ")");
        }
        libC.cfmakeraw(termios);
        libC.tcsetattr(slave, TCSANOW, termios);
        libC.close(slave);
    }

    /** Name of the device, such as {@code /dev/pts/3}. */
    String device() {
        return device;
    }

    /**
     * Reads what is there, waiting for it so long at most. For one thread.
     *
     * @return number of bytes, 0 if none came, -1 while nobody has the device open
     */
    int read(byte[] bytes, int waitMs) throws IOException {
        polled.setShort(4, POLLIN);
        polled.setShort(6, (short) 0);
        libC.poll(polled, new NativeLong(1), waitMs);
        short came = polled.getShort(6);
        // Reads only what is known to be there: a read that waits would not notice this end being closed.
        if ((came & POLLIN) != 0) {
            int count = libC.read(master, in, new NativeLong(Math.min(bytes.length, BUFFER_BYTES)))
                    .intValue();
            if (count > 0) {
                in.read(0, bytes, 0, count);
                return count;
            }
        }
        return (came & POLLHUP) != 0 ? -1 : 0;
    }

    /** Writes as much as the device takes at once; how much that was. For one thread. */
    synchronized int write(byte[] bytes) {
        int length = Math.min(bytes.length, BUFFER_BYTES);
        if (closed) {
            return 0;
        }
        out.write(0, bytes, 0, length);
        return Math.max(0, libC.write(master, out, new NativeLong(length)).intValue());
    }

    /** The device is gone for whoever has it open. Only when nobody reads any more. */
    @Override
    public synchronized void close() {
        if (!closed) {
            closed = true;
            libC.close(master);
        }
    }
}
