package dev.lapwing.evidence;

import static dev.lapwing.evidence.SamplePlan.psi;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.plan.Course;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.SplittableRandom;

/** A run made by hand: an EP application that fills too slowly at the rear, ten seconds in all. */
public final class SampleRun {
    public static final Instant STARTED = Instant.parse("2026-11-24T08:15:30Z");

    private static final long SECOND = 1_000_000;

    private SampleRun() {}

    public static RunIdentity identity(String id) {
        return new RunIdentity(
                id,
                "20261124T081530Z",
                RunClass.DRY,
                STARTED,
                "P. Wren",
                "HLR-0042",
                "boot-1",
                true,
                OptionalLong.of(7),
                "0.1.0",
                "bench-host",
                List.of(new RunIdentity.SourceFile("sequence", SamplePlan.FILE, Sha256.of(new byte[] {1, 2, 3}))));
    }

    /** Tells a run to a log. */
    public static void tell(RunLog log, int seconds, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        log.edge("D1", 0, false);
        log.edge("D2", 0, false);
        log.due(1, "handle to full-ep", Map.of("handle", 40.0, "speed", 1.0 / 3), 2 * SECOND, 0);
        log.opened("cylinder-fills@4", 2 * SECOND, 2 * SECOND);
        samples(log, 0, 3, random);
        log.executed(1, 2 * SECOND, 2 * SECOND + 113);
        log.edge("D2", 2 * SECOND + 20_000, true);
        log.edge("D1", 2 * SECOND + 21_000, true);
        samples(log, 3, seconds, random);
        log.edge("D1", 6 * SECOND + 500, false);
        log.fault(7 * SECOND, "BC1", "out of range");
        log.lost("BC1", 7 * SECOND, 7 * SECOND + 4_000);
        log.mark(8 * SECOND, "a remark of the operator: ±, <b>");
        log.closed(
                new Course.ExpectationWindow("cylinder-fills@4", 2 * SECOND + 113, 2 * SECOND, seconds * SECOND, true));
        log.trouble(new Course.Trouble(Course.Trouble.Kind.NOT_REACHED, 9 * SECOND, "the pipe never rose"));
        log.safe(seconds * SECOND, "told to");
        log.end(seconds * SECOND, Course.Ending.COMPLETE);
    }

    /** Four seconds on a bench that had been on for ten hours, nothing expected of them. */
    public static RunRecord afterTenHours() {
        OpenRecord record = OpenRecord.inMemory(identity("late"), SamplePlan.plan());
        long begin = 36_000 * SECOND;
        record.log().edge("D1", begin, false);
        record.log().edge("D1", begin + SECOND, true);
        record.log().safe(begin + 4 * SECOND, "told to");
        record.log().end(begin + 4 * SECOND, Course.Ending.COMPLETE);
        return record.finish(List.of(), STARTED.plusSeconds(5));
    }

    private static void samples(RunLog log, int fromSecond, int toSecond, SplittableRandom random) {
        int rows = 37;
        int[] counts = new int[rows * 4];
        long end = toSecond * SECOND;
        for (long t0 = fromSecond * SECOND; t0 < end; t0 += rows * 2_000) {
            int here = (int) Math.min(rows, (end - t0 + 1_999) / 2_000);
            for (int row = 0; row < here; row++) {
                double t = (t0 + row * 2_000L) * 1e-6 - 2;
                counts[row * 4] = noisy(30_583, random);
                counts[row * 4 + 1] = noisy((int) (21_845 * fill(t, 1.1)), random);
                counts[row * 4 + 2] = noisy((int) (21_845 * fill(t - 0.05, 1.6)), random);
                counts[row * 4 + 3] = noisy(t > 0 ? 21_845 : 0, random);
            }
            log.samples(new SampleBlock(SamplePlan.QUICK, t0, here, counts));
        }
    }

    private static double fill(double t, double tau) {
        return t < 0 ? 0 : 1 - StrictMath.exp(-t / tau);
    }

    private static int noisy(int count, SplittableRandom random) {
        return Math.max(0, count + random.nextInt(-25, 26));
    }

    /** Findings of each verdict. */
    public static List<Finding> findings() {
        return List.of(
                finding("cylinder-fills@4", Verdict.FAIL, 3.68, SamplePlan.between("ep-rise-time", 2, 3.3)),
                finding("cylinder-fills@1", Verdict.PASS, 2.53, SamplePlan.between("ep-rise-time", 2, 3.3)),
                finding("first-response", Verdict.INCONCLUSIVE, 0.6, SamplePlan.atMost("ep-first-time", 0.6)),
                new Finding(
                        "warning-light",
                        "the warning light switches on within 1 s",
                        SamplePlan.at(44),
                        Verdict.NONE,
                        "the unit has no vigilance",
                        Optional.empty(),
                        "",
                        Optional.empty(),
                        OptionalDouble.empty(),
                        Optional.empty(),
                        List.of()),
                new Finding(
                        "full-brake@4",
                        "brake cylinder at vehicle 4 settles between 47 psi and 53 psi",
                        SamplePlan.at(30),
                        Verdict.INCONCLUSIVE,
                        "not measured: samples were lost",
                        Optional.empty(),
                        "",
                        Optional.of(SamplePlan.between("ep-full-band", psi(47), psi(53))),
                        OptionalDouble.empty(),
                        Optional.of(new Window(8 * SECOND, 8 * SECOND + 500_000)),
                        List.of()));
    }

    private static Finding finding(String id, Verdict verdict, double seconds, Limit limit) {
        Estimate measured = new Estimate(
                seconds,
                Dimension.TIME,
                List.of(
                        new Component("calibration/BC4", 0.0061),
                        new Component("noise/BC4", -0.0024),
                        new Component("stamp/BC4", 1.2e-5)));
        String signal = id.endsWith("@1") ? "brake-cylinder@1" : "brake-cylinder@4";
        return new Finding(
                id,
                "brake cylinder at vehicle 4 rises above 45 psi within 2 s to 3.3 s",
                SamplePlan.at(28),
                verdict,
                verdict == Verdict.PASS ? "inside by more than U" : "it took 3.68 s, and 3.3 s are allowed",
                Optional.of(measured),
                "time to rise above 45 psi",
                Optional.of(limit),
                OptionalDouble.of(limit.margin(seconds)),
                Optional.of(new Window(2 * SECOND, 10 * SECOND)),
                List.of(new Mark(signal, 2 * SECOND + (long) (seconds * 1e6), psi(45), "above 45 psi")));
    }

    /** The run, finished, in memory. */
    public static RunRecord record(int seconds, long seed) {
        OpenRecord open = OpenRecord.inMemory(identity("r-" + seed), SamplePlan.plan());
        tell(open.log(), seconds, seed);
        return open.finish(findings(), STARTED.plusSeconds(3));
    }

    /** A run of three of which one record is missing and one sequence was not run. */
    public static WholeRun withGaps() {
        return new WholeRun(
                List.of(record(4, 1)),
                3,
                List.of(
                        new Gap("05-lap", "Lap <holds>", "no record", Verdict.ERROR, "Its record is missing."),
                        new Gap("06-dump", "Dump", "not run", Verdict.NONE, "Not run: an error ended the run.")));
    }

    /** A record of a run in which nothing happened and nothing was judged. */
    public static RunRecord neverStarted() {
        return OpenRecord.inMemory(identity("r-0"), SamplePlan.plan()).read();
    }
}
