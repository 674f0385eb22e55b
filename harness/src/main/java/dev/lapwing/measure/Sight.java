package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Window;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * What is looked at for one expectation.
 *
 * @param recording       everything that was reported
 * @param seen            the stretch of the expectation
 * @param stimulusBoundUs bound of the error in the stamp of the stimulus, in µs
 * @param remembered      levels that earlier expectations were to remember
 * @param words           how figures are told
 */
record Sight(
        Recording recording,
        ExpectationWindow seen,
        long stimulusBoundUs,
        Map<String, Remembered> remembered,
        Words words) {

    long originUs() {
        return seen.originUs();
    }

    /** Bench time that many seconds after the origin. */
    long after(double seconds) {
        return originUs() + Math.round(seconds * 1e6);
    }

    Window between(double fromSeconds, double toSeconds) {
        return new Window(after(fromSeconds), after(toSeconds));
    }

    /** From the origin for that time; without one, for as long as the steps around the expectation took. */
    Window over(OptionalDouble seconds) {
        return seconds.isPresent() ? between(0, seconds.getAsDouble()) : new Window(seen.openedUs(), seen.closedUs());
    }

    /** The part of it that was watched. */
    Window watched(Window window) {
        return new Window(window.fromUs(), Math.max(window.fromUs(), Math.min(window.toUs(), seen.closedUs())));
    }

    /** Why that time, or the steps around the expectation, were not watched to their end, if they were not. */
    Optional<Doubt> unfinished(OptionalDouble seconds) {
        return seconds.isPresent() || seen.complete()
                ? cutShort(over(seconds).toUs())
                : Optional.of(new Doubt("the run ended before the steps it watches were done", "run it to its end"));
    }

    /** Why the stretch was not watched to that end, if it was not. */
    Optional<Doubt> cutShort(long endUs) {
        if (seen.closedUs() >= endUs) {
            return Optional.empty();
        }
        return Optional.of(new Doubt(
                "watching ended " + words.time(endUs - seen.closedUs()) + " before this could be measured",
                "run it to its end"));
    }

    /** Why nothing read of that signal in that stretch can be relied upon, if so. */
    Optional<Doubt> doubt(Signal signal, Window window) {
        return Doubt.about(signal, window, recording, words);
    }

    /** The first reason to doubt what is read of a condition. */
    Optional<Doubt> doubt(PlannedCondition condition, Window window) {
        return doubt(condition.signals(), window).or(() -> beyond(condition, window));
    }

    /** Whether a level of it that lies beyond the range of its transducer may have been passed unseen. */
    Optional<Doubt> beyond(PlannedCondition condition, Window window) {
        Atoms atoms = Atoms.of(condition);
        return IntStream.range(0, atoms.atoms().size())
                .filter(atom -> !atoms.signal(atom).digital())
                .mapToObj(atom -> Doubt.beyond(atoms.signal(atom), atoms.level(atom), recording, window, words))
                .flatMap(Optional::stream)
                .findFirst();
    }

    /** The first reason to doubt any of them. */
    Optional<Doubt> doubt(List<Signal> signals, Window window) {
        return signals.stream().flatMap(s -> doubt(s, window).stream()).findFirst();
    }
}
