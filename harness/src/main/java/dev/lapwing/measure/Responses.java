package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.signal.Average;
import dev.lapwing.signal.EveryOther;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Terms of a response to a stimulus, after IEEE Std 181-2011 (from memory) and the brake calculation's own. */
final class Responses {
    /** A change of fewer standard deviations of one sample than this is no response to measure terms of. */
    private static final int CLEAR = 20;

    private final Sight sight;

    Responses(Sight sight) {
        this.sight = sight;
    }

    Measurement response(Check.Response check) {
        Window window = sight.between(0, check.settled() + check.over());
        String quantity = quantity(check);
        Optional<Doubt> doubt = sight.cutShort(window.toUs())
                .or(() -> sight.doubt(check.signal(), States.before(check, sight)))
                .or(() -> sight.doubt(check.signal(), window));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, window);
        }
        Sampled sampled = sight.recording().sampled(check.signal()).orElseThrow();
        States.Told told = States.of(check, sight, sampled);
        if (told.doubt().isPresent()) {
            return told.doubt().get().of(quantity, window);
        }
        States states = told.states().orElseThrow();
        if (check.term() == ResponseTerm.LOW_STATE || check.term() == ResponseTerm.HIGH_STATE) {
            return state(check, states, quantity, window);
        }
        return still(check, states, sampled, quantity, window)
                .orElseGet(() -> new Term(check, sampled, states, window, quantity).measured());
    }

    private String quantity(Check.Response check) {
        String share = sight.words().value(check.share(), Dimension.RATIO);
        String term = check.term().spoken();
        if (check.term() == ResponseTerm.TIME_TO_SHARE) {
            term = "time to " + share + " of the change";
        } else if (check.term() == ResponseTerm.SETTLING_DURATION) {
            term += " into " + share;
        }
        return term + " of " + check.signal().spoken();
    }

    private Measurement state(Check.Response check, States states, String quantity, Window window) {
        boolean low = check.term() == ResponseTerm.LOW_STATE;
        boolean first = low == states.change() > 0;
        Estimate state = first ? states.first() : states.last();
        Mark mark = new Mark(
                check.signal().key(),
                first ? window.fromUs() : window.toUs(),
                state.value(),
                check.term().spoken());
        return new Measured(state, quantity, List.of(mark), window);
    }

    /** What did not respond has no terms; what moved by hardly more than noise has none that could be told. */
    private Optional<Measurement> still(
            Check.Response check, States states, Sampled sampled, String quantity, Window window) {
        Estimate change = states.last().minus(states.first());
        double noise = Channels.sampleNoise(sampled.instrument());
        String moved = check.signal().spoken() + " changed by " + sight.words().estimate(change);
        if (Math.abs(change.value()) <= change.expanded()) {
            return Optional.of(new NeverHappened(
                    moved + ", which is no response", Optional.empty(), 0, quantity, List.of(), window));
        }
        return Math.abs(change.value()) >= CLEAR * noise
                ? Optional.empty()
                : Optional.of(new Doubt(moved + ", too little beside its noise", "give it a larger stimulus")
                        .of(quantity, window));
    }

    /** One term of a response whose states are told. */
    private final class Term {
        private final Check.Response check;
        private final Sampled sampled;
        private final States states;
        private final Window window;
        private final String quantity;
        private final ShareTimes times;

        Term(Check.Response check, Sampled sampled, States states, Window window, String quantity) {
            this.check = check;
            this.sampled = sampled;
            this.states = states;
            this.window = window;
            this.quantity = quantity;
            this.times = new ShareTimes(sight, check.signal(), sampled, states.first(), states.last(), window);
        }

        Measurement measured() {
            return switch (check.term()) {
                case TIME_TO_SHARE -> one(check.share());
                case TRANSITION_DURATION -> both(0.1, -1, 0.9, 1);
                // te = ta + tab/2 with ta to 10 % and tab from there to 95 %: half of the one and half of the other.
                case EQUIVALENT_RESPONSE_TIME -> both(0.1, 0.5, 0.95, 0.5);
                case SETTLING_DURATION -> settling();
                case OVERSHOOT -> overshoot();
                case UNDERSHOOT -> undershoot();
                case LOW_STATE, HIGH_STATE -> throw new IllegalArgumentException(check.term() + " is a state");
            };
        }

        private Measurement one(double share) {
            ShareTimes.Reached reached = times.at(share);
            if (reached instanceof ShareTimes.Reached.Not not) {
                return not.why().of(quantity, window);
            }
            ShareTimes.Reached.At at = (ShareTimes.Reached.At) reached;
            return told(at.time(), List.of(mark(at, share)));
        }

        /** Times to two shares, each times its factor. */
        private Measurement both(double early, double a, double late, double b) {
            ShareTimes.Reached first = times.at(early);
            ShareTimes.Reached second = times.at(late);
            if (first instanceof ShareTimes.Reached.Not not) {
                return not.why().of(quantity, window);
            }
            if (second instanceof ShareTimes.Reached.Not not) {
                return not.why().of(quantity, window);
            }
            ShareTimes.Reached.At from = (ShareTimes.Reached.At) first;
            ShareTimes.Reached.At to = (ShareTimes.Reached.At) second;
            return told(from.time().combine(a, b, to.time()), List.of(mark(from, early), mark(to, late)));
        }

        private Measurement told(Crossed time, List<Mark> marks) {
            return new CrossedTime(sight.seen().id(), check.limit(), quantity, check.signal(), sampled, window)
                    .of(time, marks);
        }

        private Measurement settling() {
            ShareTimes.Reached half = times.at(0.5);
            if (half instanceof ShareTimes.Reached.Not not) {
                return not.why().of(quantity, window);
            }
            ShareTimes.Reached.At from = (ShareTimes.Reached.At) half;
            double band = check.share() * Math.abs(states.change());
            Entries.Entry entry = new Entries(sight, check.signal(), sampled)
                    .into(states.last(), band, new Window(from.atUs(), window.toUs()));
            if (entry.outside().isPresent()) {
                return entry.outside().get().never(quantity, List.of(), window);
            }
            // Counted from the stimulus as the half way is, so that what both owe to it cancels.
            Estimate halfWay = from.time().linear();
            Estimate since = entry.since().orElse(halfWay);
            Estimate settling = since.minus(halfWay);
            if (entry.cutOff().isPresent() && !check.limit().excludes(settling)) {
                return entry.cutOff().get().of(quantity, window);
            }
            List<Mark> marks = new ArrayList<>(List.of(mark(from, 0.5)));
            marks.addAll(entry.marks());
            return new Measured(settling, quantity, marks, window);
        }

        private Measurement overshoot() {
            ShareTimes.Reached half = times.at(0.5);
            if (half instanceof ShareTimes.Reached.Not not) {
                return not.why().of(quantity, window);
            }
            return beyond(new Window(((ShareTimes.Reached.At) half).atUs(), window.toUs()), 1, "overshoot");
        }

        private Measurement undershoot() {
            ShareTimes.Reached half = times.at(0.5);
            if (half instanceof ShareTimes.Reached.Not not) {
                return not.why().of(quantity, window);
            }
            Window after = new Window(((ShareTimes.Reached.At) half).atUs(), window.toUs());
            Extremes extremes =
                    Extremes.of(sampled.trace(), after, Watched.WIDTH_US).orElseThrow();
            long peakUs = states.change() > 0 ? extremes.greatestUs() : extremes.leastUs();
            return beyond(new Window(Math.min(peakUs, after.toUs()), after.toUs()), -1, "undershoot");
        }

        /** How far it goes beyond the last state, or short of it for −1, in the sense of the change. */
        private Measurement beyond(Window where, int side, String label) {
            int sign = side * (states.change() > 0 ? 1 : -1);
            Optional<Extremes> found = Extremes.of(new EveryOther(sampled.trace(), 0), where, Watched.WIDTH_US);
            if (found.isEmpty()) {
                return new Doubt("nothing was seen after the response", "take a later 'after'").of(quantity, window);
            }
            if (sampled.everyUs() > Watched.WIDTH_US) {
                return new Doubt("a peak may hide between samples so far apart", "use a quicker stream")
                        .of(quantity, window);
            }
            long atUs = sign > 0 ? found.get().greatestUs() : found.get().leastUs();
            // Chosen by every other sample, told by those between: the peak of the noise is not in it.
            Optional<Average> between = between(atUs);
            if (between.isEmpty()) {
                return new Doubt("there are too few samples about the peak", "use a quicker stream")
                        .of(quantity, window);
            }
            double value = between.get().mean();
            Estimate extreme = peak(between.get(), atUs);
            Estimate off = extreme.combine(sign, -sign, states.last());
            boolean relative = check.limit().dimension() == Dimension.RATIO;
            Estimate change = states.last().minus(states.first());
            Estimate told = relative
                    ? Derived.ratio(
                            off, change.value() > 0 ? change : states.first().minus(states.last()))
                    : off;
            Mark mark = new Mark(check.signal().key(), atUs, value, label + " " + words(told));
            boolean outside = check.limit().margin(told.value()) < -told.expanded();
            Optional<Doubt> cutOff =
                    outside ? Optional.empty() : Doubt.cutOff(check.signal(), sampled, sign > 0, atUs, sight.words());
            return cutOff.<Measurement>map(doubt -> doubt.of(quantity, window))
                    .orElseGet(() -> new Measured(told, quantity, List.of(mark), window));
        }

        private Optional<Average> between(long atUs) {
            long halfUs = Math.max(Watched.WIDTH_US / 2, sampled.everyUs());
            return Average.of(new EveryOther(sampled.trace(), 1), new Window(atUs - halfUs, atUs + halfUs));
        }

        private Estimate peak(Average mean, long atUs) {
            double scatter = sampled.instrument().noise() / Math.sqrt(mean.samples());
            Input noise = Input.stated(scatter, check.signal().dimension());
            return Levels.reading(mean.mean(), sampled.instrument(), noise, "peak at " + atUs + " us");
        }

        private Mark mark(ShareTimes.Reached.At at, double share) {
            return new Mark(
                    check.signal().key(), at.atUs(), at.level(), sight.words().value(share, Dimension.RATIO));
        }

        private String words(Estimate estimate) {
            return sight.words().value(estimate.value(), estimate.dimension());
        }
    }
}
