package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.BecameSafe;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** Drives one output at a time, there and back; a person says what was seen, and the bench's own inputs beside. */
final class Exercise {
    private static final long GO_ON_US = 50_000;
    private static final long AHEAD_US = 200_000;
    private static final long RAMP_US = 500_000;
    private static final long SETTLE_US = 2_000_000;
    private static final long BACK_US = 1_000_000;
    private static final long LOOK_US = 500_000;
    /** An output is driven for so long at the most while nobody answers. */
    private static final long PATIENCE_US = 180_000_000;

    /** A bench says so soon that it is safe, besides what its link lags. */
    private static final long SAFE_US = 2_000_000;

    private static final int SAFE_LAGS = 4;

    private final BenchFile file;
    private final PressureDisplay pressures;
    private final Operator operator;
    private final List<Output> outputs;
    private final LiveReadings live = new LiveReadings();
    private final MovedInputs moved;
    private final List<Result> results = new ArrayList<>();
    private long lastSet;

    /** What came of an output. */
    enum Seen {
        CONFIRMED,
        NOT_CONFIRMED,
        LEFT_OUT
    }

    /** An output, and what came of it. */
    record Result(String actuator, Seen seen) {}

    /** @param outputs of the file, in the order in which they are tried */
    Exercise(BenchFile file, List<Output> outputs, PressureDisplay pressures, Operator operator) {
        this.file = file;
        this.outputs = List.copyOf(outputs);
        this.pressures = pressures;
        this.operator = operator;
        this.moved = new MovedInputs(file, new InputText(file, pressures), live);
    }

    /** What came of the outputs so far; of all of them, once {@link #on} has returned or thrown. */
    List<Result> results() {
        List<Result> all = new ArrayList<>(results);
        outputs.stream()
                .skip(results.size())
                .forEach(output -> all.add(new Result(output.actuator().key(), Seen.LEFT_OUT)));
        return all;
    }

    /** Makes the bench safe, and throws if it does not say that it is. */
    void end(Bench bench) throws BenchFailure {
        bench.safe();
        long untilUs = bench.nowUs() + SAFE_US + SAFE_LAGS * bench.lagUs();
        List<String> told = new ArrayList<>();
        while (live.becameSafe().isEmpty()) {
            if (bench.nowUs() > untilUs || !told.isEmpty()) {
                throw new BenchFailure("the bench did not say that it is safe; make sure by hand that it is"
                        + (told.isEmpty() ? "" : ". It told: " + String.join("; ", told)));
            }
            bench.advance(bench.nowUs() + GO_ON_US, live);
            told.addAll(live.takeTroubles());
        }
    }

    /** Arms the bench and goes through its outputs. Whoever calls ends it and closes the bench. */
    void on(Bench bench) throws BenchFailure {
        bench.arm();
        int number = 0;
        for (Output output : outputs) {
            number++;
            Point point = file.points().stream()
                    .filter(candidate -> candidate.name().equals(output.point()))
                    .findFirst()
                    .orElseThrow();
            String place = number + " of " + outputs.size();
            Optional<Seen> seen = one(bench, new OutputText(output, point, pressures), place);
            if (seen.isEmpty()) {
                return;
            }
            results.add(new Result(output.actuator().key(), seen.get()));
        }
    }

    /** Empty if the person stops. */
    private Optional<Seen> one(Bench bench, OutputText text, String place) throws BenchFailure {
        String key = text.output().actuator().key();
        operator.say("");
        operator.say(place + ": '" + key + "' on point '" + text.point().name() + "', from "
                + text.of(text.point().safe()) + " to " + text.of(text.trial()) + " and back.");
        Optional<OptionalInt> to = target(bench, text);
        if (to.isEmpty() || to.get().isEmpty()) {
            return to.map(skipped -> Seen.LEFT_OUT);
        }
        int counts = to.get().getAsInt();
        rest(bench, LOOK_US);
        moved.before();
        drive(bench, text, counts);
        rest(bench, SETTLE_US);
        live.gatherAfresh();
        rest(bench, LOOK_US);
        operator.say("  '" + key + "' is at " + text.of(counts) + ". Read back:");
        moved.since(text.output()).forEach(line -> operator.say("    " + line));
        Optional<Seen> seen = seen(bench);
        if (!operator.stopped()) {
            drive(bench, text, text.point().safe());
            rest(bench, BACK_US);
        }
        return seen;
    }

    /** Where to drive it: empty if the person stops, holding nothing if it is left out. */
    private Optional<OptionalInt> target(Bench bench, OutputText text) throws BenchFailure {
        while (true) {
            Optional<String> answer = operator.ask(
                    "  Enter drives it, another value is driven to instead, 'skip' leaves it out, 'stop' ends:",
                    () -> goOn(bench));
            if (answer.isEmpty()) {
                return Optional.empty();
            }
            if (answer.get().equals("skip")) {
                return Optional.of(OptionalInt.empty());
            }
            OptionalInt counts = answer.get().isEmpty() ? OptionalInt.of(text.trial()) : text.typed(answer.get());
            if (counts.isPresent()) {
                return Optional.of(counts);
            }
            operator.say("  '" + answer.get() + "' is no value of it; write one such as '" + text.of(text.trial())
                    + "', from " + text.of(text.point().min()) + " to "
                    + text.of(text.point().max()));
        }
    }

    private Optional<Seen> seen(Bench bench) throws BenchFailure {
        long untilUs = bench.nowUs() + PATIENCE_US;
        while (true) {
            Optional<String> answer = operator.ask(
                    "  Did that move at the bench, and nothing else? y, n or stop:", () -> goOn(bench, untilUs));
            if (answer.isEmpty()) {
                return Optional.empty();
            }
            if (answer.get().equals("y") && moved.missed()) {
                operator.say("  It counts as not confirmed: what is to read it back did not move.");
                return Optional.of(Seen.NOT_CONFIRMED);
            }
            if (answer.get().equals("y") || answer.get().equals("n")) {
                return Optional.of(answer.get().equals("y") ? Seen.CONFIRMED : Seen.NOT_CONFIRMED);
            }
        }
    }

    private void drive(Bench bench, OutputText text, int counts) throws BenchFailure {
        long overUs = text.point().kind().digital() ? 0 : RAMP_US;
        bench.set(++lastSet, Map.of(text.point().name(), counts), bench.nowUs() + AHEAD_US, overUs);
    }

    private void rest(Bench bench, long us) throws BenchFailure {
        long until = bench.nowUs() + us;
        while (bench.nowUs() < until && !operator.stopped()) {
            goOn(bench);
        }
    }

    private void goOn(Bench bench, long untilUs) throws BenchFailure {
        if (bench.nowUs() > untilUs) {
            throw new BenchFailure("nobody said what is seen for " + PATIENCE_US / 60_000_000
                    + " minutes, and no output stays driven without somebody there");
        }
        goOn(bench);
    }

    private void goOn(Bench bench) throws BenchFailure {
        bench.advance(bench.nowUs() + GO_ON_US, live);
        if (live.becameSafe().isPresent() && !operator.stopped()) {
            throw new BenchFailure(BecameSafe.told(live.becameSafe().get()));
        }
        live.takeTroubles().forEach(trouble -> operator.say("  bench: " + trouble));
    }
}
