package dev.lapwing.judge;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Words;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Window;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Whether channels read what they were calibrated for. Beyond the ends of its calibration a channel is read on along
 * straight lines, and its stated uncertainty is of the range between them: of what lies farther out nothing is known,
 * and nothing passes by it. What is outside its limit stays so.
 */
final class CalibratedRange {
    /** So far beyond an end, as a share of the range, a line goes on as it was; common practice, no source. */
    private static final double SHARE = 0.1;
    /** One sample that is off is no reading, in µs. */
    private static final long WIDTH_US = 100_000;

    private final Map<String, Input> calibrations = new HashMap<>();
    private final Map<Looked, Optional<String>> known = new HashMap<>();
    private final Map<String, Window> watched = new HashMap<>();
    private final Recording recording;
    private final Words words;

    private record Looked(String signal, Window window) {}

    CalibratedRange(BenchFile bench, Recording recording, Words words) {
        bench.inputs().stream()
                .filter(input -> input.calibration().isPresent())
                .forEach(input -> calibrations.put(input.signal().key(), input));
        this.recording = recording;
        this.words = words;
    }

    /**
     * The finding on an expectation, or that it is not relied upon. What a comparison compares was watched in the
     * windows of its expectations.
     *
     * @param read all that it was told from
     */
    Finding of(Finding finding, Check check, Collection<Signal> read) {
        watched.put(finding.id(), window(finding));
        if (check instanceof Check.Comparison compared) {
            Finding one = in(watched.getOrDefault(compared.expectation(), window(finding)), finding, read);
            return in(watched.getOrDefault(compared.with(), window(finding)), one, read);
        }
        return in(window(finding), finding, read);
    }

    /** The finding on a case of a property, or that it is not relied upon. */
    Finding of(Finding finding, Collection<Signal> read) {
        return in(window(finding), finding, read);
    }

    private Window window(Finding finding) {
        return finding.window().orElseGet(() -> new Window(0, recording.untilUs()));
    }

    private Finding in(Window window, Finding finding, Collection<Signal> read) {
        if (finding.verdict() != Verdict.PASS) {
            return finding;
        }
        return Stream.concat(
                        finding.marks().stream().map(Mark::signal),
                        read.stream().map(Signal::key))
                .distinct()
                .filter(calibrations::containsKey)
                .map(key -> known.computeIfAbsent(new Looked(key, window), this::left))
                .flatMap(Optional::stream)
                .findFirst()
                .map(why -> Findings.inconclusive(
                        finding,
                        "Not relied upon, as " + why + ". Calibrate it over all that it reads, and run it again. "
                                + finding.because()))
                .orElse(finding);
    }

    private Optional<String> left(Looked looked) {
        Input input = calibrations.get(looked.signal);
        List<Calibration.Pair> points = input.calibration().orElseThrow().points();
        double one = points.get(0).value();
        double other = points.get(points.size() - 1).value();
        double room = SHARE * Math.abs(other - one);
        double low = Math.min(one, other);
        double high = Math.max(one, other);
        return recording
                .sampled(input.signal())
                .flatMap(sampled -> Extremes.of(sampled.trace(), looked.window, WIDTH_US))
                .filter(seen -> seen.least() < low - room || seen.greatest() > high + room)
                .map(seen -> looked.signal + " read "
                        + figure(seen.greatest() > high + room ? seen.greatest() : seen.least(), input)
                        + " and is calibrated from " + figure(low, input) + " to " + figure(high, input) + " alone");
    }

    private String figure(double base, Input input) {
        return words.value(base, input.signal().dimension());
    }
}
