package dev.lapwing.measure;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Always.Case;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Two transducers on one signal held against each other, at rest and while it moves: means over the same stretches may
 * differ by no more than the expanded uncertainty of their difference. What each may have wrong is its own, so that
 * both enter whole.
 */
final class Twins {
    /** A mean is taken over so many samples of the slower one at least. Common practice, no source. */
    private static final int SAMPLES_LEAST = 10;

    private static final String SOURCE = "ISO 13528: two values agree whose difference is at most its uncertainty U";

    private final Recording recording;
    private final Window run;

    Twins(Recording recording, Window run) {
        this.recording = recording;
        this.run = run;
    }

    /** Of each pair of the bench, when it was apart most in terms of what it may be apart. */
    List<Case> agree(BenchFile bench) {
        List<Case> cases = new ArrayList<>();
        for (var input : bench.inputs()) {
            if (input.signal() instanceof Signal.Twin twin) {
                String place = input.place().toString();
                new Pair(twin).worst().ifPresent(apart -> cases.add(held(apart, place)));
            }
        }
        return cases;
    }

    private static Case held(Measured apart, String place) {
        Limit limit = new Limit(
                "uncertainty of the difference",
                apart.estimate().dimension(),
                OptionalDouble.empty(),
                OptionalDouble.of(apart.estimate().expanded()),
                DecisionRule.SIMPLE,
                OptionalDouble.empty(),
                SOURCE,
                place);
        return new Case(apart, limit);
    }

    /** What one channel read over a stretch; {@code range} is how far its readings went apart in it. */
    private record Block(double mean, int samples, double range) {}

    /** The readings of one channel, stretch by stretch. */
    private static final class Channel {
        private final Sampled sampled;
        private int next;

        Channel(Sampled sampled, Window run) {
            this.sampled = sampled;
            this.next = sampled.trace().firstAtOrAfter(run.fromUs());
        }

        /** Of the stretch behind the one before; empty if samples are missing, which would shift its mean. */
        Optional<Block> next(Window window, long dueLeast) {
            Trace trace = sampled.trace();
            double sum = 0;
            double least = Double.POSITIVE_INFINITY;
            double greatest = Double.NEGATIVE_INFINITY;
            int from = next;
            for (; next < trace.size() && trace.timeUs(next) <= window.toUs(); next++) {
                double value = trace.value(next);
                sum += value;
                least = Math.min(least, value);
                greatest = Math.max(greatest, value);
            }
            int samples = next - from;
            return samples < dueLeast
                    ? Optional.empty()
                    : Optional.of(new Block(sum / samples, samples, greatest - least));
        }
    }

    /** A signal and its twin. */
    private final class Pair {
        private final Signal.Twin twin;
        private final Sampled one;
        private final Sampled other;
        private final long blockUs;

        Pair(Signal.Twin twin) {
            this.twin = twin;
            this.one = recording.sampled(twin.of()).orElseThrow();
            this.other = recording.sampled(twin).orElseThrow();
            this.blockUs = Math.max(BlockMeans.BLOCK_US, SAMPLES_LEAST * Math.max(one.everyUs(), other.everyUs()));
        }

        Optional<Measured> worst() {
            Channel first = new Channel(one, run);
            Channel second = new Channel(other, run);
            Optional<Measured> worst = Optional.empty();
            double most = -1;
            for (long fromUs = run.fromUs(); fromUs + blockUs <= run.toUs(); fromUs += blockUs) {
                Window window = new Window(fromUs, fromUs + blockUs - 1);
                Optional<Block> here = first.next(window, blockUs / one.everyUs());
                Optional<Block> there = second.next(window, blockUs / other.everyUs());
                if (here.isPresent() && there.isPresent()) {
                    Measured apart = apart(here.get(), there.get(), window);
                    double terms = apart.estimate().value() / apart.estimate().standardUncertainty();
                    worst = terms > most ? Optional.of(apart) : worst;
                    most = Math.max(terms, most);
                }
            }
            return worst;
        }

        private Measured apart(Block here, Block there, Window window) {
            double range = Math.max(here.range, there.range);
            String span = Words.span(window);
            Estimate apart = mean(one, here, range, span).minus(mean(other, there, range, span));
            Estimate size = apart.value() < 0 ? apart.times(-1, apart.dimension()) : apart;
            List<Mark> marks = List.of(
                    new Mark(twin.of().key(), window.fromUs(), here.mean, "apart from its twin"),
                    new Mark(twin.key(), window.fromUs(), there.mean, "its twin"));
            String quantity = "difference between " + twin.of().spoken() + " and its twin transducer";
            return new Measured(size, quantity, marks, window);
        }

        /**
         * The mean of a channel with what it may have wrong. Looked at later by t, a signal whose readings go apart by
         * {@code range} has a mean that is other by {@code range}·t over the length of the stretch at most: t is half
         * an interval for where samples lie in it, and what is doubtful of their stamps.
         */
        private Estimate mean(Sampled channel, Block block, double range, String span) {
            Instrument instrument = channel.instrument();
            Input scatter = Input.stated(instrument.noise() / Math.sqrt(block.samples), twin.dimension());
            double perSecond = range / (blockUs * 1e-6);
            Estimate mean = Levels.reading(block.mean, instrument, scatter, span);
            for (Component instant : Timing.instant(instrument, perSecond)) {
                mean = mean.with(instant);
            }
            return mean.with(Component.of(
                    "interpolation/" + instrument.point() + "/" + span,
                    1,
                    Input.within(perSecond * channel.everyUs() * 0.5e-6, twin.dimension())));
        }
    }
}
