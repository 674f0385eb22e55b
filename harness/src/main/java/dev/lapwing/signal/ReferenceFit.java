package dev.lapwing.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * How counts become values, fitted to readings at known values, and what doubt the readings themselves leave. Values in
 * the base unit of what is calibrated; standard uncertainties with k = 1.
 *
 * @param knots      at least two, counts and values rising; straight lines between and beyond them
 * @param residuals  of each reading, in the order given: value that the fit reads less the value applied
 * @param standard   standard uncertainty of a value read by the fit, as far as the readings show it: their spread about
 *                   the fit (repeatability, hysteresis, curvature) and how well the fit itself is known
 * @param span       standard uncertainty of the difference of two values, read by the fit at both of its ends, as far
 *                   as the readings show it: how well the fit's rise is known, and their spread about it at either end
 * @param bow        by how much more the fit reads wrong at one setting than at another that lies half of the range or
 *                   more from it, at the most; means of the readings of a setting
 * @param noise      standard deviation of one sample
 * @param meanNoise  of the reading that was averaged over the fewest samples: what noise left in its mean
 * @param resolution standard uncertainty of a value that is known to one count
 */
public record ReferenceFit(
        List<Knot> knots,
        List<Double> residuals,
        double standard,
        double span,
        double bow,
        double noise,
        double meanNoise,
        double resolution) {
    /** Readings whose values lie within this share of the whole range are of one setting. */
    private static final double SAME_SHARE = 0.02;

    private static final double CHORD_SHARE = 0.1;
    /** As many straight pieces as a bench file holds without being tedious. */
    private static final int CHORDS_MAX = 40;

    /** That many counts mean that value. */
    public record Knot(double counts, double value) {}

    public ReferenceFit {
        knots = List.copyOf(knots);
        residuals = List.copyOf(residuals);
    }

    /** From its lowest value to its highest. */
    public double range() {
        return knots.get(knots.size() - 1).value() - knots.get(0).value();
    }

    /** Why the readings do not bear a calibration yet; empty if they do. */
    public static Optional<String> wanting(List<ReferenceReading> readings) {
        boolean rising = false;
        boolean falling = false;
        double same = SAME_SHARE * range(readings);
        for (int i = 1; i < readings.size(); i++) {
            double step = readings.get(i).value() - readings.get(i - 1).value();
            rising |= step > same;
            falling |= step < -same;
        }
        if (!rising || !falling) {
            return Optional.of("at least two values are wanted, and one of them both from below and from above: "
                    + (rising ? "no reading was taken while falling" : "no reading was taken while rising"));
        }
        List<Knot> settings = settings(readings);
        if (readings.size() == settings.size()) {
            return Optional.of("no value was taken twice, from below and from above");
        }
        for (int i = 1; i < settings.size(); i++) {
            if (settings.get(i).counts() <= settings.get(i - 1).counts()) {
                return Optional.of("the counts do not rise with the value; a bench file can hold only what rises");
            }
        }
        return Optional.empty();
    }

    /** One straight line by least squares, given by its two ends. */
    public static ReferenceFit line(List<ReferenceReading> readings) {
        require(readings);
        int n = readings.size();
        double[] x = new double[n];
        double[] y = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = readings.get(i).counts();
            y[i] = readings.get(i).value();
        }
        StraightLine line = StraightLine.of(x, y);
        double least =
                readings.stream().mapToDouble(ReferenceReading::value).min().orElseThrow();
        double most =
                readings.stream().mapToDouble(ReferenceReading::value).max().orElseThrow();
        List<Knot> ends = List.of(on(line, least), on(line, most));
        double ofFit = Math.max(
                line.standardAt(ends.get(0).counts()),
                line.standardAt(ends.get(1).counts()));
        double standard = StrictMath.hypot(line.residual(), ofFit);
        double rise = line.slopeStandard() * (ends.get(1).counts() - ends.get(0).counts());
        return of(ends, readings, standard, StrictMath.hypot(rise, Math.sqrt(2) * line.residual()));
    }

    /** Why the readings bear no polynomial of that degree; empty if they do. */
    public static Optional<String> wanting(List<ReferenceReading> readings, int degree) {
        Optional<String> wanting = wanting(readings);
        if (wanting.isPresent()) {
            return wanting;
        }
        if (settings(readings).size() < degree + 2) {
            return Optional.of("a curve of degree " + degree + " wants " + (degree + 2) + " different values");
        }
        List<Knot> knots = polynomial(readings, degree).knots();
        for (int i = 1; i < knots.size(); i++) {
            if (knots.get(i).value() <= knots.get(i - 1).value()) {
                return Optional.of("a curve of degree " + degree + " turns round within the range");
            }
        }
        return Optional.empty();
    }

    /**
     * One polynomial by least squares over the counts, given by so many knots that straight lines between them leave it
     * by no more than {@value #CHORD_SHARE} of a count's worth: h²·f″/8 at the most (see {@link #table}).
     *
     * @param degree 1 to 3
     */
    public static ReferenceFit polynomial(List<ReferenceReading> readings, int degree) {
        require(readings);
        double[] x = readings.stream().mapToDouble(ReferenceReading::counts).toArray();
        double[] y = readings.stream().mapToDouble(ReferenceReading::value).toArray();
        Polynomial curve = Polynomial.fit(x, y, degree);
        double least = Arrays.stream(x).min().orElseThrow();
        double most = Arrays.stream(x).max().orElseThrow();
        double chord = CHORD_SHARE * Math.abs(curve.at(most) - curve.at(least)) / (most - least);
        // Of degree 3 at most, it bends most at an end.
        double bend = Math.max(Math.abs(curve.bendAt(least)), Math.abs(curve.bendAt(most)));
        double chords = Math.ceil((most - least) * Math.sqrt(bend / (8 * chord)));
        int parts = (int) Math.max(1, Math.min(CHORDS_MAX, chords));
        List<Knot> knots = new ArrayList<>();
        double ofFit = 0;
        for (int i = 0; i <= parts; i++) {
            double counts = least + (most - least) * i / parts;
            knots.add(new Knot(counts, curve.at(counts)));
            ofFit = Math.max(ofFit, curve.standardAt(counts));
        }
        double width = (most - least) / parts;
        double between = bend * width * width / 8 / Math.sqrt(3);
        double spread = StrictMath.hypot(curve.residual(), between);
        double rise = curve.standardBetween(least, most);
        return of(knots, readings, StrictMath.hypot(spread, ofFit), StrictMath.hypot(rise, Math.sqrt(2) * spread));
    }

    /**
     * A table with a knot for each setting, the mean of its readings. Its doubt is the spread of the readings of one
     * setting about their mean, and what a curve can do between knots: h²·f″/8 at the most, the error of linear
     * interpolation (Abramowitz and Stegun, Handbook of Mathematical Functions, 25.2.2 and 25.2.3, cited from memory),
     * with h²·f″ taken from the second differences and each error up to it as likely.
     */
    public static ReferenceFit table(List<ReferenceReading> readings) {
        require(readings);
        List<Knot> knots = settings(readings);
        double square = 0;
        for (ReferenceReading reading : readings) {
            double rest = read(knots, reading.counts()) - reading.value();
            square += rest * rest;
        }
        // wanting() sees to it that there are more readings than settings.
        double spread = Math.sqrt(square / (readings.size() - knots.size()));
        double between = bend(knots) / 8 / Math.sqrt(3);
        double standard = StrictMath.hypot(spread, between);
        return of(knots, readings, standard, Math.sqrt(2) * standard);
    }

    private static void require(List<ReferenceReading> readings) {
        wanting(readings).ifPresent(why -> {
            throw new IllegalArgumentException(why);
        });
    }

    private static ReferenceFit of(List<Knot> knots, List<ReferenceReading> readings, double standard, double span) {
        Knot first = knots.get(0);
        Knot last = knots.get(knots.size() - 1);
        double perCount = (last.value() - first.value()) / (last.counts() - first.counts());
        double pooled = 0;
        double meanNoise = 0;
        List<Double> residuals = new ArrayList<>();
        for (ReferenceReading reading : readings) {
            pooled += reading.noise() * reading.noise();
            meanNoise = Math.max(meanNoise, reading.noise() / Math.sqrt(reading.samples()));
            residuals.add(read(knots, reading.counts()) - reading.value());
        }
        // GUM F.2.2.1: known to one step, each value within it as likely.
        double resolution = perCount / Math.sqrt(12);
        return new ReferenceFit(
                knots,
                residuals,
                standard,
                span,
                bow(knots, settings(readings)),
                Math.sqrt(pooled / readings.size()) * perCount,
                meanNoise * perCount,
                resolution);
    }

    private static double bow(List<Knot> knots, List<Knot> settings) {
        double far = (0.5 - SAME_SHARE)
                * (settings.get(settings.size() - 1).value() - settings.get(0).value());
        double most = 0;
        for (Knot one : settings) {
            for (Knot other : settings) {
                double more = read(knots, one.counts()) - one.value() - read(knots, other.counts()) + other.value();
                most = Math.abs(one.value() - other.value()) < far ? most : Math.max(most, more);
            }
        }
        return most;
    }

    /** Value that these knots read for a count. */
    private static double read(List<Knot> knots, double counts) {
        int i = 1;
        while (i < knots.size() - 1 && counts > knots.get(i).counts()) {
            i++;
        }
        Knot left = knots.get(i - 1);
        Knot right = knots.get(i);
        return left.value()
                + (counts - left.counts()) * (right.value() - left.value()) / (right.counts() - left.counts());
    }

    private static Knot on(StraightLine line, double value) {
        return new Knot(line.centre() + (value - line.middle()) / line.slope(), value);
    }

    /** Each setting's mean count and mean value, values rising. */
    private static List<Knot> settings(List<ReferenceReading> readings) {
        List<ReferenceReading> sorted = new ArrayList<>(readings);
        sorted.sort(Comparator.comparingDouble(ReferenceReading::value));
        double same = SAME_SHARE * range(readings);
        List<Knot> knots = new ArrayList<>();
        int from = 0;
        for (int i = 1; i <= sorted.size(); i++) {
            if (i == sorted.size() || sorted.get(i).value() - sorted.get(i - 1).value() > same) {
                List<ReferenceReading> one = sorted.subList(from, i);
                knots.add(new Knot(
                        one.stream()
                                .mapToDouble(ReferenceReading::counts)
                                .average()
                                .orElseThrow(),
                        one.stream()
                                .mapToDouble(ReferenceReading::value)
                                .average()
                                .orElseThrow()));
                from = i;
            }
        }
        return knots;
    }

    private static double range(List<ReferenceReading> readings) {
        double least =
                readings.stream().mapToDouble(ReferenceReading::value).min().orElse(0);
        double most =
                readings.stream().mapToDouble(ReferenceReading::value).max().orElse(0);
        return most - least;
    }

    /** Greatest h²·f″ of the values over the counts between neighbouring knots. */
    private static double bend(List<Knot> knots) {
        double most = 0;
        for (int i = 1; i < knots.size() - 1; i++) {
            Knot left = knots.get(i - 1);
            Knot here = knots.get(i);
            Knot right = knots.get(i + 1);
            double before = here.counts() - left.counts();
            double after = right.counts() - here.counts();
            double second = 2
                    * ((right.value() - here.value()) / after - (here.value() - left.value()) / before)
                    / (before + after);
            double widest = Math.max(before, after);
            most = Math.max(most, Math.abs(second) * widest * widest);
        }
        return most;
    }
}
