package dev.lapwing.evidence;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.bench.Stream;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.judge.Judge;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.transport.Pressures;
import dev.lapwing.uncertainty.DecisionRule;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.SplittableRandom;

/**
 * A record of many hours, 16 channels at 1 kHz: written, read and summed up plainly, opened, judged. Judged is each
 * channel over the whole of it (its extremes) and, each hour, in a window of a second (its settled level). The heap is
 * what the process was started with; see {@code harness/bench long-record}.
 */
public final class LongRecord {
    private static final int CHANNELS = 16;
    private static final int COUNT_MAX = 65_535;
    private static final long EVERY_US = 1_000;
    private static final int BLOCK_ROWS = 1_000;
    private static final long HOUR_US = 3_600_000_000L;
    private static final int NOISE_COUNTS = 22;

    private LongRecord() {}

    /** @param args hours of the record, 8 unless said otherwise */
    public static void main(String[] args) throws Exception {
        int hours = args.length > 0 ? Integer.parseInt(args[0]) : 8;
        Path folder = Files.createTempDirectory("lapwing-long");
        try {
            Path record = write(folder, hours);
            long samples = hours * HOUR_US / EVERY_US * CHANNELS;
            say(
                    "%d hours, %d channels at 1 kHz, %.1f million samples, %.0f MB, heap of at most %d MB",
                    hours,
                    CHANNELS,
                    samples * 1e-6,
                    Files.size(record.resolve(RecordStore.LOG)) * 1e-6,
                    Runtime.getRuntime().maxMemory() >> 20);
            double plain = told("read and summed up plainly", samples, () -> sum(record));
            RunRecord[] opened = new RunRecord[1];
            double open = told("opened: checked, indexed", samples, () -> opened[0] = RunRecord.open(record));
            List<Finding> findings = new ArrayList<>();
            double judged = told("measured and judged", samples, () -> findings.addAll(judge(opened[0])));
            told("evidence summed up", samples, () -> opened[0].evidenceSha256(findings));
            say(
                    "measured at %.2f of the rate of plain reading; with opening at %.2f",
                    plain / judged, plain / (open + judged));
            say(
                    "%d findings, %d of them a pass; at most %d MB of heap in use after a collection",
                    findings.size(),
                    findings.stream()
                            .filter(finding -> finding.verdict().text().equals("pass"))
                            .count(),
                    usedMb());
        } finally {
            delete(folder);
        }
    }

    /** Work that may fail. */
    private interface Work {
        void run() throws Exception;
    }

    /** Processor seconds of this thread; elapsed time depends on what else the machine does. */
    private static double told(String what, long samples, Work work) throws Exception {
        var threads = ManagementFactory.getThreadMXBean();
        long from = threads.getCurrentThreadCpuTime();
        long began = System.nanoTime();
        work.run();
        double seconds = (threads.getCurrentThreadCpuTime() - from) * 1e-9;
        say(
                "%-28s %6.2f s of one processor (%.2f s elapsed), %6.1f million samples/s",
                what, seconds, (System.nanoTime() - began) * 1e-9, samples / seconds * 1e-6);
        return seconds;
    }

    private static void say(String format, Object... parts) {
        System.out.println(String.format(Locale.ROOT, format, parts));
    }

    private static long usedMb() {
        return ManagementFactory.getMemoryPoolMXBeans().stream()
                        .filter(pool -> pool.getType() == MemoryType.HEAP && pool.getCollectionUsage() != null)
                        .mapToLong(pool -> pool.getCollectionUsage().getUsed())
                        .sum()
                >> 20;
    }

    private static Path write(Path folder, int hours) {
        Plan plan = plan(hours);
        Stream stream = plan.bench().streams().get(0);
        long rows = hours * HOUR_US / EVERY_US;
        try (OpenRecord open = OpenRecord.create(folder, identity(), plan)) {
            RunLog log = open.log();
            opened(plan, log);
            SplittableRandom random = new SplittableRandom(1);
            int[] counts = new int[BLOCK_ROWS * CHANNELS];
            for (long row = 0; row < rows; row += BLOCK_ROWS) {
                for (int i = 0; i < counts.length; i++) {
                    int slow = (int) ((row + i / CHANNELS) / 60_000 % 100);
                    counts[i] = 30_000 + 500 * (i % CHANNELS) + slow + random.nextInt(-NOISE_COUNTS, NOISE_COUNTS + 1);
                }
                log.samples(new SampleBlock(stream, row * EVERY_US, BLOCK_ROWS, counts));
            }
            closed(plan, log, rows * EVERY_US);
            log.end(rows * EVERY_US, Course.Ending.COMPLETE);
        }
        return folder.resolve(identity().id());
    }

    private static List<PlannedExpectation> expectations(Plan plan) {
        return ((PlanStep.Expect) plan.steps().get(0)).expectations();
    }

    private static void opened(Plan plan, RunLog log) {
        expectations(plan).forEach(one -> log.opened(one.id(), originUs(one.id()), originUs(one.id())));
    }

    private static void closed(Plan plan, RunLog log, long untilUs) {
        expectations(plan)
                .forEach(one -> log.closed(
                        new Course.ExpectationWindow(one.id(), originUs(one.id()), originUs(one.id()), untilUs, true)));
    }

    /** A window's id ends with its hour; the others begin at 0. */
    private static long originUs(String id) {
        return id.startsWith("level") ? Integer.parseInt(id.substring(id.lastIndexOf('-') + 1)) * HOUR_US : 0;
    }

    private static Plan plan(int hours) {
        List<PlannedExpectation> expectations = new ArrayList<>();
        for (int channel = 0; channel < CHANNELS; channel++) {
            double middle = Pressures.pascals(30_000 + 500 * channel);
            Limit band = limit(middle - 1e5, middle + 1e5);
            expectations.add(expectation(
                    "stays-" + channel,
                    new Check.Stays(Pressures.signal(channel), OptionalDouble.of(hours * HOUR_US * 1e-6), band)));
            for (int hour = 0; hour < hours; hour++) {
                expectations.add(expectation(
                        "level-" + channel + "-" + hour,
                        new Check.SettledLevel(Pressures.signal(channel), 0, 1, 1, Optional.empty(), band)));
            }
        }
        LinkChoice link = new LinkChoice.Simulated(0.001, 0, 0, 0, 0);
        return Pressures.plan(
                Pressures.file(link, CHANNELS, COUNT_MAX, EVERY_US),
                List.of(new PlanStep.Expect(expectations, "expect", "benchmark:1:1")));
    }

    private static PlannedExpectation expectation(String id, Check check) {
        return new PlannedExpectation(id, id, "benchmark:2:1", check);
    }

    private static Limit limit(double lower, double upper) {
        return new Limit(
                "band",
                Dimension.PRESSURE,
                OptionalDouble.of(lower),
                OptionalDouble.of(upper),
                DecisionRule.GUARDED,
                OptionalDouble.empty(),
                "benchmark",
                "benchmark:3:1");
    }

    private static RunIdentity identity() {
        return new RunIdentity(
                "long",
                "",
                RunClass.values()[0],
                Instant.EPOCH,
                "",
                "",
                "boot",
                true,
                OptionalLong.empty(),
                "benchmark",
                "",
                List.of());
    }

    private static List<Finding> judge(RunRecord record) {
        return new Judge(PressureDisplay.PSI).judge(record.plan(), record.recording(), record.course());
    }

    private static long sum(Path record) throws Exception {
        Sum sum = new Sum();
        new LogReader(new DiskStore(record).logBytes()).replay(sum);
        return sum.sum;
    }

    private static void delete(Path folder) throws Exception {
        try (var all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }

    /** Adds up all counts. */
    private static final class Sum implements SelectiveListener, RunLog {
        private long sum;

        @Override
        public void samples(SampleBlock block) {
            int size = block.rows() * block.stream().points().size();
            for (int i = 0; i < size; i++) {
                sum += block.counts()[i];
            }
        }

        @Override
        public void due(long id, String text, Map<String, Double> values, long dueUs, long overUs) {}

        @Override
        public void opened(String expectation, long originUs, long atUs) {}

        @Override
        public void closed(Course.ExpectationWindow window) {}

        @Override
        public void trouble(Course.Trouble trouble) {}

        @Override
        public void mark(long atUs, String text) {}

        @Override
        public void end(long atUs, Course.Ending ending) {}
    }
}
