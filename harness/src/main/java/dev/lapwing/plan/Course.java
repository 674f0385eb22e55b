package dev.lapwing.plan;

import dev.lapwing.signal.Window;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * What happened when, in bench time, and on which day: all that the judge needs besides traces and edges.
 *
 * @param executed every set command as due and as executed, in order
 * @param windows  every expectation that was opened
 * @param lost     stretches in which reports were lost for good, by signal key
 * @param troubles what went wrong with bench, link or run, in order; empty if nothing did
 * @param ending   how the run ended
 * @param endUs    bench time until which it went on: all that happened until then was told, or told as lost
 * @param day      day on which the run was begun, UTC
 */
public record Course(
        List<Executed> executed,
        List<ExpectationWindow> windows,
        Map<String, List<Window>> lost,
        List<Trouble> troubles,
        Ending ending,
        long endUs,
        LocalDate day) {

    /** The same with its sentences told in other words; what was measured and when stays. */
    public Course told(UnaryOperator<String> words) {
        return new Course(
                executed.stream().map(command -> command.told(words)).toList(),
                windows,
                lost,
                troubles.stream()
                        .map(trouble -> new Trouble(trouble.kind, trouble.atUs, words.apply(trouble.why)))
                        .toList(),
                ending,
                endUs,
                day);
    }

    /**
     * A command.
     *
     * @param id     of the command
     * @param text   the step as a person reads it
     * @param values by actuator key, base units, what was asked
     * @param dueUs  bench time for which it was asked
     * @param atUs   bench time at which it was executed; empty if that was never told
     * @param overUs time of the ramp, µs
     */
    public record Executed(
            long id, String text, Map<String, Double> values, long dueUs, Optional<Long> atUs, long overUs) {

        private Executed told(UnaryOperator<String> words) {
            return new Executed(id, words.apply(text), values, dueUs, atUs, overUs);
        }
    }

    /**
     * The stretch of one expectation.
     *
     * @param id       of the expectation
     * @param originUs bench time that its times count from
     * @param openedUs when watching began
     * @param closedUs when watching ended
     * @param complete false if the run ended before the expectation's time was over
     */
    public record ExpectationWindow(String id, long originUs, long openedUs, long closedUs, boolean complete) {}

    /**
     * Something that is not the unit's fault, or ended the run.
     *
     * @param kind what kind
     * @param atUs bench time
     * @param why  one sentence for people
     */
    public record Trouble(Kind kind, long atUs, String why) {
        /** What a trouble does to the verdict. */
        public enum Kind {
            /** Bench, link or harness broke: error. */
            BENCH,
            /** The operator stopped: error. */
            OPERATOR,
            /** A start condition or a wait was not met: what follows is inconclusive. */
            NOT_REACHED
        }
    }

    /** How a run ended. */
    public enum Ending {
        /** All steps were done. */
        COMPLETE,
        /** It was cut short; the troubles say why. */
        CUT_SHORT
    }
}
