package dev.lapwing.measure;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.CrossingCurve;
import dev.lapwing.signal.LevelCrossing;
import dev.lapwing.signal.MovedLevel;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.MonteCarlo;
import dev.lapwing.uncertainty.Propagation;
import dev.lapwing.uncertainty.Streams;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A time told by where signals cross levels. By linear propagation a level too high by e is passed e / slope later;
 * that holds as long as the signal goes on with that slope for as far as the level is in doubt. Where it does not, the
 * distribution is drawn, with the signal itself as the model.
 *
 * @param linear by linear propagation; its components hold every source
 * @param parts  the crossings that it is made of
 */
record Crossed(Estimate linear, List<Part> parts) {
    /**
     * Linear propagation holds where the times at both ends of the level's expanded uncertainty (k = 2) lie equally far
     * from the time itself, to this share of U, a tenth of u, noise left aside. JCGM 101:2008, 8.1, compares the ends
     * of the intervals likewise; how near they must be is ours.
     */
    private static final double BENT_MOST = 0.05;
    /** And where the slope takes neither of them further off than this share of U. Common practice, no source. */
    private static final double OFF_MOST = 0.2;
    /** So many standard uncertainties a level is moved at the most. */
    static final double REACH = 5;

    /**
     * One crossing in a sum.
     *
     * @param factor    by which its time enters
     * @param moved     its time as a function of the level
     * @param shift     errors of what the level is held against, in the signal's unit
     * @param noise     key of its noise
     * @param curvature key of what its shape leaves open
     */
    record Part(double factor, MovedLevel moved, List<Component> shift, String noise, String curvature) {
        Part times(double more) {
            return new Part(factor * more, moved, shift, noise, curvature);
        }

        /** Standard uncertainty of the level, sources first. */
        double doubt() {
            return new Estimate(0, Dimension.PRESSURE, shift).standardUncertainty();
        }

        /**
         * True if the signal goes on as it crossed for as far as the level is in doubt: to the ends of the expanded
         * uncertainty, and further out, where a plateau would leave those and make another standard uncertainty.
         */
        boolean straight(double expanded) {
            double size = expanded / Math.abs(factor);
            return Math.abs(2 * doubt() / moved.found().slope()) <= BENT_MOST * size
                    || straight(2, size) && straight(3, size);
        }

        /** As far as {@code k} standard uncertainties of the level; a parabola's bend grows with the square of it. */
        private boolean straight(int k, double size) {
            LevelCrossing found = moved.found();
            double reach = k * doubt();
            double allowed = size * k * k / 4;
            MovedLevel.Point low = moved.at(-reach);
            MovedLevel.Point high = moved.at(reach);
            double early = low.seconds() - found.seconds() + reach / found.slope();
            double late = high.seconds() - found.seconds() - reach / found.slope();
            double scatter =
                    2 * StrictMath.hypot(StrictMath.hypot(low.fromNoise(), high.fromNoise()), found.fromNoise());
            // Not a number where neither end has a time.
            return Math.abs(early + late) / 2 <= BENT_MOST * allowed + scatter
                    && Math.max(Math.abs(early), Math.abs(late)) <= OFF_MOST * allowed + scatter;
        }
    }

    /** {@code a·this + b·other}. */
    Crossed combine(double a, double b, Crossed other) {
        List<Part> both = new ArrayList<>();
        parts.forEach(part -> both.add(part.times(a)));
        other.parts.forEach(part -> both.add(part.times(b)));
        return new Crossed(linear.combine(a, b, other.linear), both);
    }

    /** True if linear propagation holds. */
    boolean straight() {
        return parts.stream().allMatch(part -> part.straight(linear.expanded()));
    }

    /**
     * Its distribution.
     *
     * @param name of what is measured; with the value it makes the seed, so that the same record is drawn alike
     */
    Drawn drawn(String name) {
        Map<String, Input> sources = new LinkedHashMap<>();
        linear.components().forEach(part -> sources.put(part.source(), input(part)));
        long seed = Streams.seedOf(name + "/" + Math.round(linear.value() * 1e6));
        MonteCarlo draws = new MonteCarlo(sources, new Signals(List.copyOf(sources.keySet()))::value, seed);
        Propagation propagation = draws.propagate();
        List<Component> alone = new ArrayList<>();
        for (Component part : linear.components()) {
            double standard = Math.copySign(draws.alone(alone.size()), part.standard());
            alone.add(new Component(part.source(), standard, part.input()));
        }
        return new Drawn(linear.value(), alone, propagation);
    }

    private static Input input(Component part) {
        return part.input().orElseGet(() -> Input.stated(Math.abs(part.standard()), Dimension.TIME));
    }

    /**
     * What came of drawing.
     *
     * @param value as the signal crossed the level itself: the median, since half of the draws move the level up
     * @param alone what each source adds if all others are exact
     */
    record Drawn(double value, List<Component> alone, Propagation propagation) {
        Estimate estimate() {
            return new Estimate(value, Dimension.TIME, alone, Optional.of(propagation));
        }
    }

    /** The model: crossings read off the signals, less what else was wrong. */
    private final class Signals {
        private final List<CrossingCurve> curves = new ArrayList<>();
        private final List<double[]> shifts = new ArrayList<>();
        private final int[] noises = new int[parts.size()];
        private final int[] curvatures = new int[parts.size()];
        private final double[] straight;

        Signals(List<String> sources) {
            straight = new double[sources.size()];
            linear.components().forEach(c -> straight[sources.indexOf(c.source())] = c.standard());
            for (Part part : parts) {
                double[] shift = new double[sources.size()];
                part.shift.forEach(c -> shift[sources.indexOf(c.source())] += c.standard());
                shifts.add(shift);
                noises[curves.size()] = sources.indexOf(part.noise);
                curvatures[curves.size()] = sources.indexOf(part.curvature);
                curves.add(new CrossingCurve(part.moved, REACH * part.doubt(), 0.005 * linear.expanded()));
            }
            parts.forEach(part -> {
                part.shift.forEach(c -> straight[sources.indexOf(c.source())] = 0);
                straight[sources.indexOf(part.noise)] = 0;
                straight[sources.indexOf(part.curvature)] = 0;
            });
        }

        double value(double[] deviates) {
            double sum = 0;
            for (int i = 0; i < straight.length; i++) {
                sum -= straight[i] * deviates[i];
            }
            for (int part = 0; part < noises.length; part++) {
                double[] shift = shifts.get(part);
                double moved = 0;
                for (int i = 0; i < shift.length; i++) {
                    moved += shift[i] * deviates[i];
                }
                double curvature = Estimate.rectangular(deviates[curvatures[part]]);
                sum += parts.get(part).factor * curves.get(part).seconds(moved, deviates[noises[part]], curvature);
            }
            return Double.isNaN(sum) ? Double.POSITIVE_INFINITY : sum;
        }
    }
}
