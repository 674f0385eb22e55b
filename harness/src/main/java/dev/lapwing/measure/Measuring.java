package dev.lapwing.measure;

import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import java.util.Map;

/**
 * Measures what expectations ask for, from a recording. Pure: the same recording gives the same figures.
 *
 * @param recording what was recorded
 * @param words     how sentences tell figures
 */
public record Measuring(Recording recording, Words words) {

    /**
     * @param seen            the stretch of the expectation
     * @param stimulusBoundUs bound of the error in the stamp of the stimulus at the origin, in µs
     * @param remembered      levels that earlier expectations were to remember, by name
     */
    public Measurement measure(
            Check check, ExpectationWindow seen, long stimulusBoundUs, Map<String, Remembered> remembered) {
        Sight sight = new Sight(recording, seen, stimulusBoundUs, remembered, words);
        if (check instanceof Check.SettledLevel level) {
            return new Levels(sight).settled(level);
        } else if (check instanceof Check.Leak leak) {
            return new Slopes(sight).leak(leak);
        } else if (check instanceof Check.Crossing crossing) {
            return new CrossingTimes(sight).crossing(crossing);
        } else if (check instanceof Check.Stays stays) {
            return new Stays(sight).stays(stays);
        } else if (check instanceof Check.WireSwitches wire) {
            return new WireTimes(sight).switches(wire);
        } else if (check instanceof Check.Pulses pulses) {
            return new WireTimes(sight).pulses(pulses);
        } else if (check instanceof Check.NeverHolds never) {
            return new Conditions(sight).never(never);
        } else if (check instanceof Check.Temporal temporal) {
            return new Temporal(sight).margin(temporal);
        } else if (check instanceof Check.Follows follows) {
            return new Follows(sight).follows(follows);
        } else if (check instanceof Check.Comparison comparison) {
            return new Comparisons(sight).comparison(comparison);
        } else if (check instanceof Check.ComesBefore order) {
            return new EventOrder(sight).comesBefore(order);
        } else if (check instanceof Check.Agreement both) {
            return new Levels(sight).agreement(both);
        } else if (check instanceof Check.Movement movement) {
            return new Levels(sight).movement(movement);
        } else if (check instanceof Check.Repeat repeat) {
            return new Levels(sight).repeat(repeat);
        } else if (check instanceof Check.Change change) {
            return new Levels(sight).change(change);
        }
        return quantity(check, sight);
    }

    private static Measurement quantity(Check check, Sight sight) {
        if (check instanceof Check.Response response) {
            return new Responses(sight).response(response);
        } else if (check instanceof Check.Onset onset) {
            return new Onsets(sight).onset(onset);
        } else if (check instanceof Check.Travel travel) {
            return new Onsets(sight).travel(travel);
        } else if (check instanceof Check.SteepestRate steepest) {
            return new SteepestRates(sight).steepest(steepest);
        } else if (check instanceof Check.Duration duration) {
            return new Durations(sight).lasts(duration);
        } else if (check instanceof Check.Recovery recovery) {
            return new Recoveries(sight).recovery(recovery);
        } else if (check instanceof Check.Departure departure) {
            return new Recoveries(sight).departure(departure);
        }
        return new Staircases(sight).staircase((Check.Staircase) check);
    }
}
