package dev.lapwing.signal;

import java.util.Optional;

/**
 * When a signal last came into a band and stayed there to the end of a window. Its moving mean is held against the
 * band, so that one sample's noise is no departure.
 *
 * @param seconds   when, in s after the window's start
 * @param level     the edge of the band through which it came, the trace's unit
 * @param slope     the signal's slope there, its unit per s; 0 where none can be told
 * @param fromNoise standard uncertainty of {@code seconds} from the scatter of the samples, in s
 * @param region    stretch of bench time whose samples tell
 */
public record BandEntry(double seconds, double level, double slope, double fromNoise, Window region) {
    /** A slope shows where the line rises by so many standard deviations of one sample over its stretch. */
    private static final int CLEAR = 8;
    /** A slope that only shows over more than this to either side tells no time, in µs. */
    private static final long HALF_WIDTH_MAX_US = 2_560_000;

    /** How a window ended. */
    public sealed interface Outcome {
        /** It was inside from the first mean on. */
        record Always() implements Outcome {}

        /** It came in, and stayed. */
        record Entered(BandEntry entry) implements Outcome {}

        /** It was outside at the end. */
        record OutsideAtEnd(double value) implements Outcome {}

        /** There are no samples. */
        record Unseen() implements Outcome {}
    }

    /**
     * @param low     lower edge of the band
     * @param high    upper edge of the band
     * @param widthUs width of the moving mean, in µs
     * @param noise   standard deviation of one sample, the trace's unit
     */
    public static Outcome last(Trace trace, Window window, double low, double high, long widthUs, double noise) {
        MovingMean mean = new MovingMean(trace, widthUs, window.fromUs() - widthUs);
        double value = Double.NaN;
        long atUs = 0;
        Optional<BandEntry> entry = Optional.empty();
        while (mean.advance(window.toUs())) {
            if (mean.newestUs() < window.fromUs()) {
                continue;
            }
            double next = mean.value();
            boolean wasInside = value >= low && value <= high;
            boolean inside = next >= low && next <= high;
            if (!inside) {
                entry = Optional.empty();
            } else if (!wasInside && !Double.isNaN(value)) {
                double level = value > high ? high : low;
                long crossedUs = atUs + Math.round((level - value) / (next - value) * (mean.timeUs() - atUs));
                entry = Optional.of(entry(trace, window, level, crossedUs, widthUs, noise));
            }
            value = next;
            atUs = mean.timeUs();
        }
        if (Double.isNaN(value)) {
            return new Outcome.Unseen();
        }
        if (!(value >= low && value <= high)) {
            return new Outcome.OutsideAtEnd(value);
        }
        return entry.<Outcome>map(Outcome.Entered::new).orElseGet(Outcome.Always::new);
    }

    private static BandEntry entry(Trace trace, Window window, double level, long atUs, long widthUs, double noise) {
        double seconds = (atUs - window.fromUs()) * 1e-6;
        for (long half = widthUs; half <= HALF_WIDTH_MAX_US; half *= 2) {
            Window stretch = new Window(atUs - half, atUs + half);
            Optional<StraightLine> line = StraightLine.of(trace, stretch, atUs)
                    .filter(fit -> Math.abs(fit.slope()) * stretch.seconds() >= CLEAR * Math.max(noise, fit.residual()))
                    .filter(fit -> fit.slope() != 0);
            if (line.isPresent()) {
                double scatter = Math.max(noise, line.get().residual());
                double averaged = Math.max(1, line.get().samples() * (double) widthUs / (2 * half));
                double doubt =
                        scatter / Math.sqrt(averaged) / Math.abs(line.get().slope());
                return new BandEntry(seconds, level, line.get().slope(), doubt, stretch);
            }
        }
        long half = jumps(trace, atUs, widthUs, noise) ? widthUs : HALF_WIDTH_MAX_US;
        return new BandEntry(seconds, level, 0, 0, new Window(atUs - half, atUs + half));
    }

    /** What jumps came in within the width of the mean; what creeps tells no time within all that was looked at. */
    private static boolean jumps(Trace trace, long atUs, long widthUs, double noise) {
        Optional<Samples> before = Samples.of(trace, new Window(atUs - 2 * widthUs, atUs - widthUs));
        Optional<Samples> after = Samples.of(trace, new Window(atUs + widthUs, atUs + 2 * widthUs));
        return before.isPresent()
                && after.isPresent()
                && Math.abs(after.get().mean() - before.get().mean()) >= CLEAR * noise;
    }
}
