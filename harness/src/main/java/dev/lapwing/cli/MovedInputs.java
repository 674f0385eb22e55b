package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Output;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.SwitchKind;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Which inputs read otherwise than before. */
final class MovedInputs {
    /** So many standard deviations of a sample are no noise; a mean of many moves far less by itself. */
    private static final double NOISE_TIMES = 5;
    /** Less than this share of the calibrated range is no answer to an output that moved. */
    private static final double SHARE_MIN = 0.003;

    private final BenchFile file;
    private final InputText text;
    private final LiveReadings live;
    private final Map<String, CountSeries> counts = new HashMap<>();
    private final Map<String, Boolean> levels = new HashMap<>();
    private boolean missed;

    MovedInputs(BenchFile file, InputText text, LiveReadings live) {
        this.file = file;
        this.text = text;
        this.live = live;
    }

    /** What was gathered so far is how it was before; what comes is gathered afresh. */
    void before() {
        counts.clear();
        levels.clear();
        for (Input input : file.inputs()) {
            counts.put(input.point(), live.gathered(input.point()));
            live.level(input.point()).ifPresent(level -> levels.put(input.point(), level));
        }
        live.gatherAfresh();
    }

    /** What moved since, and what should have with that output and did not; at least one line. */
    List<String> since(Output output) {
        List<String> lines = new ArrayList<>();
        Optional<String> expected = counterpart(output.actuator());
        boolean found = false;
        for (Input input : file.inputs()) {
            Optional<String> change = input.signal().digital() ? switched(input) : shifted(input);
            String key = input.signal().key();
            change.ifPresent(how -> lines.add(key + " on " + input.point() + ": " + how));
            found |= change.isPresent() && expected.filter(key::equals).isPresent();
        }
        if (lines.isEmpty()) {
            lines.add("no input moved");
        }
        missed = expected.isPresent() && !found && carried(expected.get());
        if (missed) {
            lines.add("! '" + expected.get() + "' should have moved with it and did not: look at the wiring, and at the"
                    + " points of both in " + file.file());
        }
        if (live.losses() > 0) {
            lines.add("! readings were lost meanwhile");
        }
        return lines;
    }

    /** Whether the input that reads what that output drives stood still, when this was last asked. */
    boolean missed() {
        return missed;
    }

    private boolean carried(String signal) {
        return file.inputs().stream().anyMatch(input -> input.signal().key().equals(signal));
    }

    /** The signal that reads what that actuator drives, whatever the unit does. */
    private static Optional<String> counterpart(Actuator actuator) {
        if (actuator instanceof Actuator.Handle) {
            return Optional.of("handle-angle");
        }
        if (actuator instanceof Actuator.Supply supply) {
            return Optional.of("supply/" + supply.name());
        }
        return actuator instanceof Actuator.Switch feed && feed.kind() == SwitchKind.WIRE_FEED
                ? Optional.of("wire/" + feed.of())
                : Optional.empty();
    }

    private Optional<String> switched(Input input) {
        Optional<Boolean> now = live.level(input.point());
        Boolean then = levels.get(input.point());
        return now.filter(level -> then == null || !then.equals(level))
                .map(level -> (then == null ? "" : then ? "on → " : "off → ") + (level ? "on" : "off"));
    }

    private Optional<String> shifted(Input input) {
        CountSeries then = counts.getOrDefault(input.point(), new CountSeries());
        CountSeries now = live.gathered(input.point());
        if (then.size() == 0 || now.size() == 0) {
            return Optional.of("not sampled, so not known");
        }
        Calibration calibration = input.calibration().orElseThrow();
        List<Calibration.Pair> pairs = calibration.points();
        double span = pairs.get(pairs.size() - 1).counts() - pairs.get(0).counts();
        double least = Math.max(NOISE_TIMES * then.deviation(), SHARE_MIN * span);
        return Math.abs(now.mean() - then.mean()) <= least
                ? Optional.empty()
                : Optional.of(text.value(input, then.mean()) + " → " + text.value(input, now.mean()));
    }
}
