package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.signal.Formula;
import dev.lapwing.signal.Window;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Margins of conditions that look ahead. What was not seen counts as worst and as best: where that makes no difference
 * it does not matter, and what is outside at its best is outside.
 */
final class Temporal {
    private final Sight sight;

    Temporal(Sight sight) {
        this.sight = sight;
    }

    Measurement margin(Check.Temporal check) {
        Window planned = planned(check);
        String quantity = check.inTime() ? "margin in time" : "margin";
        Optional<Doubt> missing = check.signals().stream()
                .flatMap(signal -> missing(signal, planned).stream())
                .findFirst();
        if (missing.isPresent()) {
            return missing.get().of(quantity, planned);
        }
        OptionalLong overUs = overUs(check);
        if (overUs.isEmpty()) {
            return new Doubt(
                            "the steps took no longer than the condition looks ahead",
                            "let them take longer, or state a time to watch over")
                    .of(quantity, planned);
        }
        Atoms apart = Atoms.of(check.condition());
        Atoms atoms = check.lasting() ? apart.throughout(overUs.getAsLong()) : apart;
        long fromUs = planned.fromUs();
        long endUs = fromUs + Formula.horizonUs(atoms.formula()) + Atoms.us(check.inTime() ? check.reach() : 0);
        Window looked =
                new Window(fromUs, Math.max(fromUs, Math.min(endUs, sight.seen().closedUs())));
        Optional<Doubt> unfinished = check.lasting() ? sight.unfinished(check.over()) : Optional.empty();
        Asked asked = new Asked(check, atoms, looked, endUs, unfinished);
        return check.inTime() ? new TimeMargin(sight, asked).measured() : new LevelMargin(sight, asked).measured();
    }

    /**
     * What is asked of a recording.
     *
     * @param looked     from where the condition is looked at to the end of what there is to look at
     * @param endUs      the end of what it may look at
     * @param unfinished why not all of it was watched, if so
     */
    record Asked(Check.Temporal check, Atoms atoms, Window looked, long endUs, Optional<Doubt> unfinished) {}

    private Window planned(Check.Temporal check) {
        if (check.lasting()) {
            return sight.over(check.over());
        }
        return sight.between(0, check.watchSeconds().orElseThrow());
    }

    /** For how long it must hold at every instant; of steps, for as long as they left it time to look ahead. */
    private OptionalLong overUs(Check.Temporal check) {
        if (!check.lasting() || check.over().isPresent()) {
            return OptionalLong.of(Atoms.us(check.over().orElse(0)));
        }
        double ahead = check.condition().horizon() + (check.inTime() ? check.reach() : 0);
        long overUs = sight.seen().closedUs() - sight.seen().openedUs() - Atoms.us(ahead);
        return overUs < 0 ? OptionalLong.empty() : OptionalLong.of(overUs);
    }

    private Optional<Doubt> missing(Signal signal, Window window) {
        Recording recording = sight.recording();
        boolean there = signal instanceof Signal.Wire wire
                ? recording.switched(wire).isPresent()
                : recording.sampled(signal).filter(s -> s.trace().size() > 0).isPresent();
        return there
                ? Optional.empty()
                : Optional.of(sight.doubt(signal, window)
                        .orElseGet(() -> new Doubt("there are no samples of " + signal.spoken(), "run it again")));
    }

    /** The first transducer of the condition whose samples speak against it over the window. */
    static Optional<Doubt> transducers(Sight sight, List<Signal> signals, Window window) {
        return signals.stream()
                .flatMap(signal -> sight
                        .recording()
                        .sampled(signal)
                        .flatMap(sampled -> Doubt.transducer(signal, sampled, window, sight.words()))
                        .stream())
                .findFirst();
    }
}
