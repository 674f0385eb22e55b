package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Window;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** All that a bench reported of the unit in one run, calibrated. May grow while the run is on; for one thread. */
public interface Recording {

    /** The signals that the bench carries. */
    Set<Signal> signals();

    /** Samples of that signal; empty if the bench does not carry it. */
    Optional<Sampled> sampled(Signal signal);

    /** Levels of that wire; empty if the bench does not carry it or has not told its level yet. */
    Optional<Switched> switched(Signal.Wire wire);

    /**
     * Stretches in which reports of that signal were lost for good, oldest first; of a wire, until its level was told
     * again.
     */
    List<Window> lost(Signal signal);

    /** Bench time, in µs, up to which everything was reported. */
    long untilUs();
}
