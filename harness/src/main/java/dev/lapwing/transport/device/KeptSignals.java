package dev.lapwing.transport.device;

import com.sun.jna.Library;
import com.sun.jna.Memory;
import com.sun.jna.Native;
import com.sun.jna.Pointer;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What this process does when its terminal is closed, kept while a port is opened: the serial library lets the signal
 * be ignored from then on, and an armed bench would be driven on without its operator. Number of the signal as on Linux
 * and macOS; elsewhere nothing is kept.
 */
public final class KeptSignals {
    private static final int SIGHUP = 1;
    /** More than a description of what is done takes on any of them. */
    private static final int ACTION_BYTES = 512;

    private final Optional<Kept> kept;

    private record Kept(LibC libC, Memory action) {}

    /** What is called of the system's C library. */
    interface LibC extends Library {
        int sigaction(int signal, @Nullable Pointer action, @Nullable Pointer before);
    }

    private KeptSignals(Optional<Kept> kept) {
        this.kept = kept;
    }

    /** As it is now. */
    public static KeptSignals now() {
        try {
            LibC libC = Native.load("c", LibC.class);
            Memory action = new Memory(ACTION_BYTES);
            boolean known = libC.sigaction(SIGHUP, null, action) == 0;
            return new KeptSignals(known ? Optional.of(new Kept(libC, action)) : Optional.empty());
        } catch (UnsatisfiedLinkError e) {
            return new KeptSignals(Optional.empty());
        }
    }

    /** As it was. */
    public void restore() {
        kept.ifPresent(was -> was.libC.sigaction(SIGHUP, was.action, null));
    }
}
