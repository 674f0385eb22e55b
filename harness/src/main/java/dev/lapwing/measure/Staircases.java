package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Check.Plateau;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Greatest;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Terms of a run of remembered levels. Every one is a difference of levels of one transducer, so of its error only
 * what goes along the range is left in them.
 */
final class Staircases {
    /** Places of the handle nearer than this are one place, in degrees. */
    private static final double SAME_PLACE = 1e-6;

    private final Sight sight;

    Staircases(Sight sight) {
        this.sight = sight;
    }

    /** A level, where the handle was, and where it was read. */
    private record Step(String name, double degrees, Estimate level, List<Mark> marks) {}

    /** A difference of levels, and which ones it is of. */
    private record Found(Estimate value, List<Step> of) {}

    Measurement staircase(Check.Staircase check) {
        String quantity = check.term().spoken();
        Optional<String> missing = Stream.concat(check.levels().stream(), check.with().stream())
                .map(Plateau::remembered)
                .filter(name -> !sight.remembered().containsKey(name))
                .findFirst();
        if (missing.isPresent()) {
            return Remembered.missing(missing.get()).of(quantity, sight.between(0, 0));
        }
        List<Step> levels = steps(check.levels());
        Window window = window(levels, steps(check.with()));
        if (check.term() == StaircaseTerm.SMALLEST_GRADUATION) {
            return smallest(levels, check.answer(), quantity, window);
        }
        Optional<Found> found = switch (check.term()) {
            case LINEARITY -> Optional.of(linearity(levels));
            case LEAST_STEP -> leastStep(levels);
            case HYSTERESIS -> furthest(pairs(levels, steps(check.with())));
            case REPEATABILITY -> furthest(visits(levels));
            case SMALLEST_GRADUATION -> throw new IllegalArgumentException("no difference of levels");
        };
        return found.<Measurement>map(one -> measured(one, quantity, window))
                .orElseGet(() -> new Doubt(
                                "no place of the handle stands in it twice", "let both ways visit the same places")
                        .of(quantity, window));
    }

    /** From where the first of the levels was read to where the last one was. */
    private Window window(List<Step> levels, List<Step> with) {
        long fromUs = sight.originUs();
        long toUs = sight.originUs();
        for (Step step : Stream.concat(levels.stream(), with.stream()).toList()) {
            for (Mark mark : step.marks()) {
                fromUs = Math.min(fromUs, mark.timeUs());
                toUs = Math.max(toUs, mark.timeUs());
            }
        }
        return new Window(fromUs, toUs);
    }

    private Measured measured(Found found, String quantity, Window window) {
        String at = String.join(
                "' and '", found.of().stream().map(Step::name).distinct().toList());
        List<Mark> marks =
                found.of().stream().flatMap(step -> step.marks().stream()).toList();
        return new Measured(found.value(), quantity + ", at '" + at + "',", marks, window);
    }

    private List<Step> steps(List<Plateau> plateaus) {
        return plateaus.stream()
                .map(p -> {
                    Remembered one = sight.remembered().get(p.remembered());
                    return new Step(p.remembered(), p.degrees(), one.level(), one.marks());
                })
                .toList();
    }

    /** Least-squares line of the levels over the places; each departure is a sum of all levels with its own weights. */
    private static Found linearity(List<Step> steps) {
        int n = steps.size();
        double middle = steps.stream().mapToDouble(Step::degrees).sum() / n;
        double spread = steps.stream()
                .mapToDouble(s -> (s.degrees() - middle) * (s.degrees() - middle))
                .sum();
        List<Found> departures = new ArrayList<>();
        for (int k = 0; k < n; k++) {
            Estimate off = steps.get(k).level();
            for (Step other : steps) {
                double along =
                        spread == 0 ? 0 : (steps.get(k).degrees() - middle) * (other.degrees() - middle) / spread;
                off = off.combine(1, -(1.0 / n + along), other.level());
            }
            departures.add(new Found(off, List.of(steps.get(k))));
        }
        return furthest(departures).orElseThrow();
    }

    /** Steps between neighbours, positive the way the handle went. */
    private static List<Found> climbs(List<Step> steps) {
        List<Found> climbs = new ArrayList<>();
        for (int i = 1; i < steps.size(); i++) {
            double moved = steps.get(i).degrees() - steps.get(i - 1).degrees();
            if (Math.abs(moved) > SAME_PLACE) {
                int sign = moved > 0 ? 1 : -1;
                Estimate climb = steps.get(i)
                        .level()
                        .combine(sign, -sign, steps.get(i - 1).level());
                climbs.add(new Found(climb, List.of(steps.get(i - 1), steps.get(i))));
            }
        }
        return climbs;
    }

    private static Optional<Found> leastStep(List<Step> steps) {
        List<Found> climbs = climbs(steps);
        return climbs.stream()
                .min((a, b) -> Double.compare(a.value().value(), b.value().value()))
                .map(least -> chosen(least, climbs, false));
    }

    private static List<Found> pairs(List<Step> there, List<Step> back) {
        List<Found> pairs = new ArrayList<>();
        for (Step up : there) {
            for (Step down : back) {
                if (Math.abs(up.degrees() - down.degrees()) <= SAME_PLACE) {
                    pairs.add(new Found(up.level().minus(down.level()), List.of(up, down)));
                }
            }
        }
        return pairs;
    }

    private static List<Found> visits(List<Step> steps) {
        List<Found> visits = new ArrayList<>();
        for (int i = 0; i < steps.size(); i++) {
            for (int j = i + 1; j < steps.size(); j++) {
                Step a = steps.get(i);
                Step b = steps.get(j);
                if (Math.abs(a.degrees() - b.degrees()) <= SAME_PLACE) {
                    boolean more = a.level().value() >= b.level().value();
                    Estimate apart =
                            more ? a.level().minus(b.level()) : b.level().minus(a.level());
                    visits.add(new Found(apart, List.of(a, b)));
                }
            }
        }
        return visits;
    }

    private static Optional<Found> furthest(List<Found> all) {
        return all.stream()
                .max((a, b) -> Double.compare(
                        Math.abs(a.value().value()), Math.abs(b.value().value())))
                .map(most -> chosen(most, all, true));
    }

    /**
     * With what choosing adds: of several that noise may have made the one, the luckiest was taken, which reads further
     * than it is by what noise adds to the greatest of as many; and one of the other sign may be it as well.
     *
     * @param furthest chosen as the furthest to either side, else as the least
     */
    private static Found chosen(Found one, List<Found> all, boolean furthest) {
        double value = one.value().value();
        int rivals = 0;
        double turned = 0;
        for (Found other : all) {
            double rival = other.value().value();
            double apart = furthest ? Math.abs(value) - Math.abs(rival) : rival - value;
            double room = StrictMath.hypot(one.value().expanded(), other.value().expanded());
            if (room > 0 && apart <= room) {
                rivals++;
                turned = furthest && value * rival < 0 ? Math.max(turned, Math.abs(value) + Math.abs(rival)) : turned;
            }
        }
        double known = one.value().standardUncertainty();
        double wider = known + Math.max(turned, Greatest.of(rivals).excess() * known) / 2;
        return wider == known
                ? one
                : new Found(
                        one.value()
                                .with(new Component("selection/staircase", Math.sqrt(wider * wider - known * known))),
                        one.of());
    }

    /** The smallest move from which on every larger one was answered; one in doubt leaves it open. */
    private Measurement smallest(List<Step> steps, double answer, String quantity, Window window) {
        List<Found> climbs = new ArrayList<>(climbs(steps));
        climbs.sort((a, b) -> Double.compare(moved(b), moved(a)));
        Optional<Found> smallest = Optional.empty();
        for (Found climb : climbs) {
            Estimate change = climb.value();
            String step = "a move of " + sight.words().value(moved(climb), Dimension.ANGLE) + " changed the level by "
                    + sight.words().estimate(change);
            if (Math.abs(change.value() - answer) < change.expanded()) {
                return new Doubt(
                                step + ", too near to the answer of "
                                        + sight.words().value(answer, Dimension.PRESSURE),
                                "average longer, or try moves that are clearly answered and clearly not")
                        .of(quantity, window);
            }
            if (change.value() < answer) {
                break;
            }
            smallest = Optional.of(climb);
        }
        if (smallest.isEmpty()) {
            return new Measurement.NeverHappened(
                    "no move of the handle was answered by " + sight.words().value(answer, Dimension.PRESSURE),
                    Optional.empty(),
                    0,
                    quantity,
                    List.of(),
                    window);
        }
        Found found = smallest.get();
        Estimate move = new Estimate(moved(found), Dimension.ANGLE, List.of());
        return measured(new Found(move, found.of()), quantity, window);
    }

    private static double moved(Found climb) {
        return Math.abs(climb.of().get(1).degrees() - climb.of().get(0).degrees());
    }
}
