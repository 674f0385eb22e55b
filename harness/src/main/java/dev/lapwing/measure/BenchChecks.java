package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Always.Case;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.plan.Throughout;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * Whether the bench's channels agree where physics leaves them no choice, whatever the unit does. The marks of a case
 * name the channels that are suspected.
 */
final class BenchChecks {
    /** Of fewer channels none can be told to be the odd one out. */
    private static final int CHANNELS_LEAST = 3;

    private static final List<SwitchKind> OPENS_OR_PARTS = List.of(
            SwitchKind.COCK,
            SwitchKind.HOSE_BURST,
            SwitchKind.PARTING,
            SwitchKind.ALARM_VALVE,
            SwitchKind.CREW_VALVE,
            SwitchKind.OTHER_CAB_CHARGE);

    private final Always run;

    BenchChecks(Always run) {
        this.run = run;
    }

    /** One pipe at rest has one pressure. */
    List<Case> pipes(Throughout throughout) {
        BlockMeans pipes = blocks(run.pressures(PressureKind.BRAKE_PIPE));
        return oddOnes(pipes, restsClosed(pipes), Always.figure(throughout, 0));
    }

    /**
     * Where all of them rest, while nothing parts the train and nothing lets air through it: pressure falls along a
     * pipe in which air flows, even if it flows so steadily that nothing moves.
     */
    private IntPredicate restsClosed(BlockMeans means) {
        List<Window> whole = List.of(run.run());
        for (SwitchKind opens : OPENS_OR_PARTS) {
            for (String key : run.driven().keys(opens.text())) {
                whole = Stretches.both(whole, run.not(run.during(run.driven().on(key))));
            }
        }
        List<Window> connected = whole;
        return block -> within(connected, means.window(block)) && means.rests(block);
    }

    /**
     * One main reservoir pipe at rest has one pressure, as the brake pipe does; and a supply reservoir behind its check
     * valve is filled to that of the pipe beside it, and keeps what it has when the pipe falls. Two channels that are
     * apart are both suspected, as nothing tells which is off.
     */
    List<Case> mains(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        List<Signal> mains = read(PressureKind.MAIN_RESERVOIR_PIPE);
        BlockMeans all = blocks(mains);
        List<Case> cases = new ArrayList<>(oddOnes(all, restsClosed(all), limit));
        if (mains.size() == 2) {
            most(all, restsClosed(all), block -> Math.abs(all.off(0, block)))
                    .ifPresent(block -> cases.add(new Case(above(all, all.off(0, block) > 0 ? 0 : 1, block), limit)));
        }
        for (Signal main : mains) {
            Signal supply = beside(main, PressureKind.SUPPLY_RESERVOIR);
            if (read(PressureKind.SUPPLY_RESERVOIR).contains(supply)) {
                BlockMeans pair = blocks(List.of(main, supply));
                most(pair, pair::restsOn, block -> pair.off(0, block))
                        .ifPresent(block -> cases.add(new Case(above(pair, 0, block), limit)));
            }
        }
        return cases;
    }

    /** By how much one of two channels is above the other; both are marked. */
    private Measurement above(BlockMeans pair, int upper, int block) {
        Window window = pair.window(block);
        Signal one = pair.signals().get(upper);
        Signal other = pair.signals().get(1 - upper);
        List<Mark> marks = List.of(
                new Mark(one.key(), window.fromUs(), pair.mean(upper, block), "apart from the other"),
                new Mark(other.key(), window.fromUs(), pair.mean(1 - upper, block), ""));
        String quantity = one.spoken() + " above " + other.spoken() + " at rest";
        return new Measured(level(one, window).minus(level(other, window)), quantity, marks, window);
    }

    /** The block of those asked in which that is greatest. */
    private static OptionalInt most(BlockMeans means, IntPredicate asked, IntToDoubleFunction of) {
        return IntStream.range(1, means.blocks())
                .filter(asked)
                .reduce((best, block) -> of.applyAsDouble(block) > of.applyAsDouble(best) ? block : best);
    }

    /**
     * Cylinders that were filled from like reservoirs through like pipes have like pressures: the air that a reservoir
     * lost is in its cylinder. Only until the EP brake is first used, which fills them from elsewhere.
     */
    List<Case> cylinders(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        long usedUs = run.on("application").orElse(List.of()).stream()
                .mapToLong(Window::fromUs)
                .findFirst()
                .orElse(Long.MAX_VALUE);
        List<Signal> cylinders = read(PressureKind.BRAKE_CYLINDER).stream()
                .filter(signal -> read(PressureKind.AUXILIARY_RESERVOIR)
                                .contains(beside(signal, PressureKind.AUXILIARY_RESERVOIR))
                        && read(PressureKind.BRAKE_PIPE).contains(beside(signal, PressureKind.BRAKE_PIPE)))
                .toList();
        BlockMeans cylinder = blocks(cylinders);
        BlockMeans reservoir = blocks(beside(cylinders, PressureKind.AUXILIARY_RESERVOIR));
        BlockMeans pipe = blocks(beside(cylinders, PressureKind.BRAKE_PIPE));
        double like = limit.upper().orElse(0);
        return oddOnes(
                cylinder,
                block -> {
                    int odd = cylinder.odd(block);
                    return cylinder.window(block).toUs() < usedUs
                            && cylinder.rests(block)
                            && reservoir.rests(block)
                            && Math.abs(reservoir.off(odd, block)) <= like
                            && Math.abs(pipe.off(odd, block)) <= like;
                },
                limit);
    }

    private List<Signal> read(PressureKind kind) {
        return run.pressures(kind);
    }

    private static Signal beside(Signal signal, PressureKind kind) {
        return new Signal.Pressure(kind, ((Signal.Pressure) signal).vehicle());
    }

    private static List<Signal> beside(List<Signal> signals, PressureKind kind) {
        return signals.stream().map(signal -> beside(signal, kind)).toList();
    }

    private BlockMeans blocks(List<Signal> signals) {
        return new BlockMeans(signals, run.recording(), run.run());
    }

    private static boolean within(List<Window> stretches, Window window) {
        return stretches.stream().anyMatch(s -> s.fromUs() <= window.fromUs() && window.toUs() <= s.toUs());
    }

    /** Of each channel that was ever the odd one out, when it was so most. */
    private List<Case> oddOnes(BlockMeans means, IntPredicate asked, Limit limit) {
        if (means.signals().size() < CHANNELS_LEAST) {
            return List.of();
        }
        int[] worst = new int[means.signals().size()];
        for (int block = 1; block < means.blocks(); block++) {
            if (asked.test(block)) {
                int odd = means.odd(block);
                boolean more =
                        worst[odd] == 0 || Math.abs(means.off(odd, block)) > Math.abs(means.off(odd, worst[odd]));
                worst[odd] = more ? block : worst[odd];
            }
        }
        return IntStream.range(0, worst.length)
                .filter(i -> worst[i] > 0)
                .mapToObj(i -> new Case(difference(means, i, means.middle(worst[i], i), worst[i]), limit))
                .toList();
    }

    private Measurement difference(BlockMeans means, int one, int other, int block) {
        Window window = means.window(block);
        Signal odd = means.signals().get(one);
        Signal middle = means.signals().get(other);
        Estimate apart = level(odd, window).minus(level(middle, window));
        Estimate size = apart.value() < 0 ? apart.times(-1, apart.dimension()) : apart;
        Mark mark = new Mark(odd.key(), window.fromUs(), means.mean(one, block), "apart from the others");
        String quantity = "difference between " + odd.spoken() + " and " + middle.spoken() + " at rest";
        return new Measured(size, quantity, List.of(mark), window);
    }

    private Estimate level(Signal signal, Window window) {
        return Levels.level(run.recording().sampled(signal).orElseThrow(), signal.dimension(), window);
    }

    /** Air does not flow uphill: no pressure is above the highest that anything which feeds it ever had. */
    List<Case> nowhere(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        List<Signal> mains = new ArrayList<>(read(PressureKind.MAIN_RESERVOIR_PIPE));
        mains.addAll(read(PressureKind.SUPPLY_RESERVOIR));
        List<Case> cases = new ArrayList<>();
        for (Signal reservoir : read(PressureKind.AUXILIARY_RESERVOIR)) {
            uphill(reservoir, read(PressureKind.BRAKE_PIPE)).ifPresent(found -> cases.add(new Case(found, limit)));
        }
        for (Signal cylinder : mains.isEmpty() ? List.<Signal>of() : read(PressureKind.BRAKE_CYLINDER)) {
            List<Signal> feeders = new ArrayList<>(mains);
            feeders.addAll(read(PressureKind.AUXILIARY_RESERVOIR));
            feeders.addAll(read(PressureKind.BRAKE_PIPE));
            uphill(cylinder, feeders).ifPresent(found -> cases.add(new Case(found, limit)));
        }
        return cases;
    }

    /** By how much it was above its feeders, when that was most. */
    private Optional<Measurement> uphill(Signal signal, List<Signal> feeders) {
        if (feeders.size() < CHANNELS_LEAST) {
            return Optional.empty();
        }
        BlockMeans fed = blocks(List.of(signal));
        BlockMeans feeding = blocks(feeders);
        int feeder = 0;
        int fedFrom = 0;
        double highest = Double.NEGATIVE_INFINITY;
        int[] worst = {-1, 0, 0};
        double most = Double.NEGATIVE_INFINITY;
        for (int block = 0; block < fed.blocks(); block++) {
            for (int i = 0; i < feeders.size(); i++) {
                if (feeding.mean(i, block) > highest) {
                    highest = feeding.mean(i, block);
                    feeder = i;
                    fedFrom = block;
                }
            }
            if (fed.rests(block) && fed.mean(0, block) - highest > most) {
                most = fed.mean(0, block) - highest;
                worst = new int[] {block, feeder, fedFrom};
            }
        }
        if (worst[0] < 0) {
            return Optional.empty();
        }
        Window window = fed.window(worst[0]);
        Signal feeds = feeders.get(worst[1]);
        String quantity = signal.spoken() + " above the highest that feeds it";
        // What a dead transducer reads hides any flow uphill.
        Optional<Doubt> dead = dead(feeds, feeding.window(worst[2])).or(() -> dead(signal, window));
        if (dead.isPresent()) {
            return Optional.of(dead.get().of(quantity, window));
        }
        Estimate above = level(signal, window).minus(level(feeds, feeding.window(worst[2])));
        Mark mark = new Mark(signal.key(), window.fromUs(), fed.mean(0, worst[0]), "above all that feeds it");
        return Optional.of(new Measured(above, quantity, List.of(mark), window));
    }

    private Optional<Doubt> dead(Signal signal, Window window) {
        return Doubt.transducer(signal, run.recording().sampled(signal).orElseThrow(), window, run.words());
    }
}
