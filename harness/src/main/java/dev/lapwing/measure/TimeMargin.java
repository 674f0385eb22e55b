package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.MovedTruth.End;
import dev.lapwing.measure.MovedTruth.Shift;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Spans;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;

/**
 * The margin of a condition in time. A few instants decide it, at which a level was passed or a wire switched, so their
 * doubts are the doubt of the margin. A level that was only nearly passed, or only just, has no instant to be doubted:
 * there the truth itself is in doubt, and the margin with it.
 */
final class TimeMargin {
    private final Sight sight;
    private final Temporal.Asked asked;
    private final Window looked;
    private final long reachUs;

    TimeMargin(Sight sight, Temporal.Asked asked) {
        this.sight = sight;
        this.asked = asked;
        this.looked = asked.looked();
        this.reachUs = Atoms.us(asked.check().reach());
    }

    Measurement measured() {
        Window around = new Window(looked.fromUs() - reachUs, looked.toUs());
        Unseen unseen = Unseen.in(around, asked.check().signals(), sight.recording());
        MovedTruth truth = truth(unseen, Side.AS_BEFORE, 0);
        Shift shift = truth.least();
        Estimate estimate = estimate(truth, shift);
        long best = unseen.nothing()
                ? shift.us()
                : truth(unseen, Side.BEST, 0).least().us();
        boolean outside = best * 1e-6 < asked.check().limit().lower().orElse(0) - estimate.expanded();
        Optional<Doubt> doubt = asked.unfinished()
                .or(() -> sight.cutShort(asked.endUs()))
                .or(() -> outside ? Optional.empty() : unseen(unseen, shift))
                .or(() -> Temporal.transducers(sight, asked.check().signals(), looked))
                .or(() -> sight.beyond(asked.check().condition(), looked));
        String quantity = quantity(truth, shift);
        return doubt.<Measurement>map(d -> d.of("margin in time", looked))
                .orElseGet(() -> new Measured(estimate, quantity, marks(truth, shift), looked));
    }

    private Optional<Doubt> unseen(Unseen unseen, Shift shift) {
        boolean same = unseen.nothing()
                || truth(unseen, Side.WORST, 0).least().us() == shift.us()
                        && truth(unseen, Side.BEST, 0).least().us() == shift.us();
        return same
                ? Optional.empty()
                : Optional.of(sight.doubt(asked.check().signals(), looked)
                        .orElseGet(() -> new Doubt("not all of it was seen", "look at the bench's stream")));
    }

    private MovedTruth truth(Unseen unseen, Side side, double ease) {
        List<Spans> spans = new ArrayList<>();
        for (int atom = 0; atom < asked.atoms().atoms().size(); atom++) {
            boolean turned = asked.atoms().turned().contains(atom);
            ConditionWatch watch = watch(atom, turned ? -ease : ease);
            Spans seen = watch.truth().map(this::spans).orElseGet(Spans::of);
            Optional<Spans> hidden = side == Side.AS_BEFORE
                    ? Optional.empty()
                    : unseen.of(asked.atoms().signal(atom));
            boolean so = side == Side.BEST != turned;
            spans.add(hidden.map(h -> so ? seen.or(h) : seen.without(h)).orElse(seen));
        }
        return new MovedTruth(asked.atoms().formula(), spans, asked.atoms().turned(), looked.fromUs(), reachUs);
    }

    private ConditionWatch watch(int atom, double ease) {
        long fromUs = looked.fromUs() - reachUs;
        ConditionWatch watch =
                ConditionWatch.of(asked.atoms().atoms().get(atom), fromUs, sight.recording(), new Ease(ease, 0));
        watch.advance();
        return watch;
    }

    /** What lies before and after is taken to go on as it was. */
    private Spans spans(Edges edges) {
        List<Long> pairs = new ArrayList<>();
        boolean on = edges.at(edges.fromUs());
        if (on) {
            pairs.add(-Spans.FAR);
        }
        for (int i = 0; i < edges.size() && edges.timeUs(i) <= looked.toUs(); i++) {
            pairs.add(edges.timeUs(i));
            on = edges.level(i);
        }
        if (on) {
            pairs.add(Spans.FAR);
        }
        return Spans.of(pairs.stream().mapToLong(Long::longValue).toArray());
    }

    private Estimate estimate(MovedTruth truth, Shift shift) {
        List<Component> parts = new ArrayList<>();
        int senses = 0;
        for (End end : truth.deciding(shift)) {
            int sense = truth.sense(end);
            long atUs = truth.atUs(end);
            senses += sense;
            watch(end.atom(), 0).doubts(atUs, (atUs - sight.originUs()) * 1e-6).forEach(c -> parts.add(c.times(sense)));
        }
        if (senses != 0) {
            parts.add(Timing.stimulus(sight.stimulusBoundUs(), -senses));
        }
        Estimate margin = new Estimate(shift.us() * 1e-6, Dimension.TIME, parts);
        return CloseBy.of(margin, off(shift), "level close by")
                .map(margin::with)
                .orElse(margin);
    }

    /** By how much the margin is another with levels easier or harder to reach, in s. */
    private double off(Shift shift) {
        return DoubleStream.of(-1, 1)
                .map(ease -> Math.abs(truth(Unseen.NOTHING, Side.AS_BEFORE, ease)
                                        .least()
                                        .us()
                                - shift.us())
                        * 1e-6)
                .max()
                .orElse(0);
    }

    private String quantity(MovedTruth truth, Shift shift) {
        if (Math.abs(shift.us()) >= reachUs) {
            return "margin in time, counted up to " + sight.words().time(reachUs) + ",";
        }
        String signals = String.join(
                " and ",
                truth.deciding(shift).stream()
                        .map(end -> asked.atoms().signal(end.atom()).spoken())
                        .distinct()
                        .toList());
        String way = shift.us() >= 0 == shift.later() ? "late" : "early";
        return "margin in time" + (signals.isEmpty() ? "" : ", decided by how " + way + " " + signals + " came,");
    }

    private List<Mark> marks(MovedTruth truth, Shift shift) {
        return truth.deciding(shift).stream()
                .limit(4)
                .map(end -> mark(end, truth.atUs(end)))
                .toList();
    }

    private Mark mark(End end, long atUs) {
        boolean wire = asked.atoms().signal(end.atom()).digital();
        double value = wire ? (end.beginning() ? 1 : 0) : asked.atoms().level(end.atom());
        return new Mark(asked.atoms().signal(end.atom()).key(), atUs, value, "decides");
    }
}
