package dev.lapwing.run;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Silence;
import dev.lapwing.bench.Stream;
import dev.lapwing.evidence.OpenRecord;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.evidence.RunIdentity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.files.Loaded;
import dev.lapwing.files.SequenceFiles;
import dev.lapwing.finding.Verdict;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.judge.Judge;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.Resolution;
import dev.lapwing.plan.Resolver;
import dev.lapwing.plan.Subject;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.simulated.SimulatedBench;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.AuxCounters;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A whole sequence on the simulated bench, its record on disk. The column {@code timesRealTime} is bench seconds per
 * second spent. Three depths show what costs what: the bench alone, with runner and record, and judged as well.
 *
 * <p>Measured once, four vehicles, processor time of the thread on a shared machine (AMD EPYC, OpenJDK 17), warm: bench
 * alone 1,900 times real time, recorded 1,050, recorded, judged and sealed 670, with either set of streams; a first run
 * in a fresh process 110, most of it in code not yet compiled. Of a recorded and judged run a third each goes to plant,
 * unit and bench, to runner and record, and to reading back, judging and sealing. Elapsed time is longer by whatever
 * else the machine does.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 5)
@Measurement(iterations = 5, time = 5)
public class WholeRunBenchmark {
    private static final long SEED = 1;
    private static final int CHANNELS = 12;
    private static final long EVERY_US = 2000;

    /** Shipped: the streams of the bench file. All at 500 Hz: its first 12 pressures every 2 ms. */
    @Param({"SHIPPED", "TWELVE_CHANNELS_AT_500_HZ"})
    public Streams streams;

    @Param({"04-ep-full-application.yaml"})
    public String sequence;

    private BenchFile bench;
    private Fixture fixture;
    private Plan plan;
    private Path records;
    private int run;

    /** What the bench samples. */
    public enum Streams {
        SHIPPED,
        TWELVE_CHANNELS_AT_500_HZ
    }

    /** Bench time that passed. */
    @AuxCounters(AuxCounters.Type.OPERATIONS)
    @State(Scope.Thread)
    public static class Passed {
        /** In s; shown per second of time spent. */
        public double timesRealTime;
    }

    @Setup
    public void read() throws IOException {
        Path home = Path.of(System.getProperty("lapwing.home"));
        fixture = value(FixtureFiles.load(home.resolve("fixtures/classic.yaml")));
        bench = streamed(value(BenchFiles.load(home.resolve("bench-config/simulated.yaml"))));
        Sequence steps =
                value(SequenceFiles.load(home.resolve("sequences/overhaul").resolve(sequence)));
        plan = ((Resolution.Resolved) Resolver.resolve(steps, Subject.of(fixture), bench, PressureDisplay.PSI)).plan();
        records = Files.createTempDirectory("lapwing-bench");
    }

    private static <T> T value(Loaded<T> loaded) {
        return loaded.value()
                .orElseThrow(() -> new IllegalStateException(loaded.mistakes().toString()));
    }

    private BenchFile streamed(BenchFile file) {
        if (streams == Streams.SHIPPED) {
            return file;
        }
        List<String> points = file.inputs().stream()
                .filter(input -> !input.signal().digital())
                .limit(CHANNELS)
                .map(Input::point)
                .toList();
        return new BenchFile(
                file.file(),
                file.name(),
                file.link(),
                file.clockRateBound(),
                file.points(),
                file.inputs(),
                file.outputs(),
                List.of(new Stream("quick", points, EVERY_US)));
    }

    @TearDown(Level.Iteration)
    public void clear() throws IOException {
        try (var all = Files.walk(records)) {
            all.sorted(Comparator.reverseOrder())
                    .filter(path -> !path.equals(records))
                    .forEach(WholeRunBenchmark::delete);
        }
    }

    private static void delete(Path path) {
        try {
            Files.delete(path);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Plant, unit and the bench's own work for as long as the run takes, nobody driving or listening. */
    @Benchmark
    public void benchAlone(Passed passed) throws BenchFailure {
        SimulatedBench simulated = SimulatedBench.open(bench, fixture.wiring(), fixture.simulation(), SEED);
        simulated.arm();
        long from = simulated.nowUs();
        while (simulated.nowUs() < from + 200_000_000) {
            simulated.advance(simulated.nowUs() + 20_000, Silence.INSTANCE);
        }
        passed.timesRealTime += (simulated.nowUs() - from) * 1e-6;
    }

    /** Plan to record. */
    @Benchmark
    public RunRecord recorded(Passed passed) throws BenchFailure {
        try (OpenRecord record = run(passed)) {
            return record.read();
        }
    }

    /** Plan to verdict: recorded, read back, judged, summed up and sealed. */
    @Benchmark
    public Verdict recordedAndJudged(Passed passed) throws BenchFailure {
        try (OpenRecord record = run(passed)) {
            RunRecord stored = record.read();
            var findings = new Judge(PressureDisplay.PSI).judge(plan, stored.recording(), stored.course());
            return record.finish(findings, Instant.EPOCH).verdict();
        }
    }

    private OpenRecord run(Passed passed) throws BenchFailure {
        SimulatedBench simulated = SimulatedBench.open(bench, fixture.wiring(), fixture.simulation(), SEED);
        long from = simulated.nowUs();
        OpenRecord record =
                OpenRecord.create(records, identity(simulated.identity().boot()), plan);
        new Runner(simulated, Progress.NONE, new OperatorStop()).run(plan, record.log(), Afterwards.SAFE);
        passed.timesRealTime += (simulated.nowUs() - from) * 1e-6;
        return record;
    }

    private RunIdentity identity(String boot) {
        return new RunIdentity(
                "run-" + ++run,
                "",
                RunClass.values()[0],
                Instant.EPOCH,
                "",
                "",
                boot,
                true,
                OptionalLong.of(SEED),
                "benchmark",
                "",
                List.of());
    }
}
