package dev.lapwing.signal;

import java.util.Optional;

/**
 * The curve y = a, from the knee on y = a + b·u + c·u² with u = t − knee, that fits samples with the least sum of
 * squares; b does not point against the movement. See {@link Onset}.
 *
 * @param knee     in s after the zero of the fit
 * @param standard standard uncertainty of it by the profile of the likelihood, in s
 * @param before   a, the trace's unit
 * @param samples  how many
 * @param behind   how many of them lie behind the knee
 * @param region   stretch of bench time that they cover
 * @param endSeconds its end, in s after the zero of the fit
 */
record HingeFit(
        double knee, double standard, double before, int samples, int behind, Window region, double endSeconds) {
    /** More samples than this are averaged in blocks first. */
    private static final int POINTS_MAX = 1500;

    /** A beginning that is known no better than to this part of what is fitted behind it has lost its foot. */
    private static final int FOOT = 6;

    private static final int LOOKS = 60;
    private static final int NARROWINGS = 40;
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

    /**
     * True if the scatter of the samples leaves the knee open by so much of what is fitted that its foot is hidden.
     */
    boolean hidden() {
        return standard > (endSeconds - knee) / FOOT;
    }

    static Optional<HingeFit> of(Trace trace, int sign, Window region, long zeroUs, double noise) {
        int from = trace.firstAtOrAfter(region.fromUs());
        int to = trace.firstAtOrAfter(region.toUs() + 1);
        int block = Math.max(1, (to - from) / POINTS_MAX);
        int n = (to - from) / block;
        if (n < 8) {
            return Optional.empty();
        }
        double[] t = new double[n];
        double[] y = new double[n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < block; j++) {
                t[i] += (trace.timeUs(from + i * block + j) - zeroUs) * 1e-6 / block;
                y[i] += sign * (trace.value(from + i * block + j) - trace.value(from)) / block;
            }
        }
        Profile profile = new Profile(t, y);
        double knee = profile.best();
        double least = profile.squares(knee);
        int behind = to - trace.firstAtOrAfter(zeroUs + Math.round(knee * 1e6));
        double one = noise * noise / block;
        // What noise does not explain is no curve of this shape, and lies behind the knee.
        double misfit = Math.max(0, least - one * (n + 2 * Math.sqrt(2.0 * n))) / Math.max(1, behind / block - 3);
        double variance = Math.max(Math.max(one, least / (n - 4)), misfit);
        double standard = profile.halfWidth(knee, least + variance);
        double a = trace.value(from) + sign * profile.before(knee);
        return Optional.of(new HingeFit(knee, standard, a, to - from, behind, region, (region.toUs() - zeroUs) * 1e-6));
    }

    /** The sum of squares that the best a, b and c leave, as a function of the knee. */
    private record Profile(double[] t, double[] y) {

        double best() {
            int n = t.length;
            double low = t[2];
            double high = t[n - 3];
            double step = (high - low) / LOOKS;
            double at = low;
            double least = Double.POSITIVE_INFINITY;
            for (int i = 0; i <= LOOKS; i++) {
                double squares = squares(low + i * step);
                if (squares < least) {
                    least = squares;
                    at = low + i * step;
                }
            }
            return narrowed(Math.max(low, at - step), Math.min(high, at + step));
        }

        /** Golden section. */
        private double narrowed(double from, double to) {
            double low = from;
            double high = to;
            for (int i = 0; i < NARROWINGS; i++) {
                double left = high - GOLDEN * (high - low);
                double right = low + GOLDEN * (high - low);
                if (squares(left) <= squares(right)) {
                    high = right;
                } else {
                    low = left;
                }
            }
            return (low + high) / 2;
        }

        /** Half the stretch about the knee in which the squares stay below. */
        double halfWidth(double knee, double below) {
            return (reach(knee, t[1], below) + reach(knee, t[t.length - 2], below)) / 2;
        }

        private double reach(double knee, double end, double below) {
            double step = (end - knee) / 256;
            double inside = knee;
            double outside = knee;
            while (step != 0 && squares(outside) <= below && Math.abs(outside - knee) < Math.abs(end - knee)) {
                inside = outside;
                outside = Math.abs(outside + step - knee) > Math.abs(end - knee) ? end : outside + step;
                step *= 1.5;
            }
            for (int i = 0; i < NARROWINGS; i++) {
                double middle = (inside + outside) / 2;
                if (squares(middle) <= below) {
                    inside = middle;
                } else {
                    outside = middle;
                }
            }
            return Math.abs(inside - knee);
        }

        double squares(double knee) {
            Sums s = Sums.of(t, y, knee);
            double left = s.both();
            return left < 0 || Double.isNaN(left) ? s.parabola() : left;
        }

        double before(double knee) {
            return Sums.of(t, y, knee).level();
        }
    }

    /**
     * Sums about the knee over all samples, u being 0 before it; those of y about the mean before the knee, which
     * keeps their digits.
     */
    private record Sums(
            double[] t,
            double[] y,
            double knee,
            double n,
            double u1,
            double u2,
            double u3,
            double u4,
            double y0,
            double uy,
            double uuy) {

        static Sums of(double[] t, double[] y, double knee) {
            double u1 = 0;
            double u2 = 0;
            double u3 = 0;
            double u4 = 0;
            double y0 = 0;
            double uy = 0;
            double uuy = 0;
            for (int i = 0; i < t.length; i++) {
                double u = Math.max(0, t[i] - knee);
                double uu = u * u;
                u1 += u;
                u2 += uu;
                u3 += uu * u;
                u4 += uu * uu;
                y0 += y[i];
                uy += u * y[i];
                uuy += uu * y[i];
            }
            return new Sums(t, y, knee, t.length, u1, u2, u3, u4, y0, uy, uuy);
        }

        /** What both terms leave; NaN where the straight one would point against the movement or nothing is left. */
        double both() {
            double[] abc = abc();
            return abc.length == 0 || abc[1] < 0 ? Double.NaN : left(abc[0], abc[1], abc[2]);
        }

        /** What the square term alone leaves. */
        double parabola() {
            double[] ac = ac();
            return left(ac[0], 0, ac[1]);
        }

        double level() {
            double[] abc = abc();
            return abc.length == 0 || abc[1] < 0 ? ac()[0] : abc[0];
        }

        private double[] abc() {
            // Normal equations about the means, which leave two unknowns.
            double s11 = u2 - u1 * u1 / n;
            double s12 = u3 - u1 * u2 / n;
            double s22 = u4 - u2 * u2 / n;
            double r1 = uy - u1 * y0 / n;
            double r2 = uuy - u2 * y0 / n;
            double det = s11 * s22 - s12 * s12;
            if (!(det > 1e-12 * s11 * s22)) {
                return new double[0];
            }
            double b = (r1 * s22 - r2 * s12) / det;
            double c = (r2 * s11 - r1 * s12) / det;
            return new double[] {(y0 - b * u1 - c * u2) / n, b, c};
        }

        private double[] ac() {
            double s22 = u4 - u2 * u2 / n;
            double c = s22 > 0 ? (uuy - u2 * y0 / n) / s22 : 0;
            return new double[] {(y0 - c * u2) / n, c};
        }

        private double left(double a, double b, double c) {
            double squares = 0;
            for (int i = 0; i < t.length; i++) {
                double u = Math.max(0, t[i] - knee);
                double rest = y[i] - a - b * u - c * u * u;
                squares += rest * rest;
            }
            return squares;
        }
    }
}
