package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.OpenRecord;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.evidence.RunIdentity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.files.SequenceFiles;
import dev.lapwing.finding.Finding;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.judge.Judge;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.Resolution;
import dev.lapwing.plan.Resolver;
import dev.lapwing.plan.Subject;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.Afterwards;
import dev.lapwing.run.OperatorStop;
import dev.lapwing.run.Progress;
import dev.lapwing.run.Runner;
import dev.lapwing.simulated.SimulatedBench;
import dev.lapwing.simulated.SimulatedTerminals;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.stream.Collectors;

/** A short sequence of some twenty seconds of bench time, for every way in which a bench is reached. */
public final class FarCab {
    public static final long SEED = 7;

    /** The bench of every test, reached in this process. */
    public static final BenchFile IN_THIS_PROCESS =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();

    private static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/far-cab.yaml");
    private static final Fixture UNIT =
            FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow();

    /**
     * What holds throughout is looked at with every sample. How long it was broken at worst is known to one interval of
     * its stream (that of the supplies), which its stated uncertainty leaves out.
     */
    private static final double LOOKED_AT_EVERY_SECONDS = 0.010;

    private FarCab() {}

    /** The same bench, reached as said. */
    public static BenchFile reached(LinkChoice link) {
        BenchFile file = IN_THIS_PROCESS;
        return new BenchFile(
                file.file(),
                file.name(),
                link,
                file.clockRateBound(),
                file.points(),
                file.inputs(),
                file.outputs(),
                file.streams());
    }

    public static Bench simulated() throws BenchFailure {
        return SimulatedBench.open(IN_THIS_PROCESS, UNIT.wiring(), UNIT.simulation(), SEED);
    }

    public static SimulatedTerminals terminals() throws BenchFailure {
        return SimulatedTerminals.open(IN_THIS_PROCESS, UNIT.wiring(), UNIT.simulation(), SEED);
    }

    public static HostSettings host(long seed) {
        return new HostSettings(token(seed), "the tests", 200);
    }

    public static String token(long seed) {
        return String.format(Locale.ROOT, "%08x", new SplittableRandom(seed).nextInt());
    }

    /** Runs it and judges it. */
    public static RunRecord on(Bench bench, BenchFile file, Path records, Progress progress) {
        return on(SEQUENCE, bench, file, records, progress);
    }

    /** Runs another sequence and judges it. */
    public static RunRecord on(Path sequence, Bench bench, BenchFile file, Path records, Progress progress) {
        Plan plan = ((Resolution.Resolved) Resolver.resolve(
                        SequenceFiles.load(sequence).value().orElseThrow(),
                        Subject.of(UNIT),
                        file,
                        PressureDisplay.PSI))
                .plan();
        RunIdentity identity = new RunIdentity(
                "far-cab",
                "",
                RunClass.DRY,
                Instant.EPOCH,
                "",
                "",
                bench.identity().boot(),
                bench.identity().simulated(),
                OptionalLong.empty(),
                "",
                "",
                List.of());
        try (OpenRecord open = OpenRecord.create(records, identity, plan)) {
            new Runner(bench, progress, new OperatorStop()).run(plan, open.log(), Afterwards.SAFE);
            RunRecord record = open.read();
            List<Finding> findings =
                    new Judge(PressureDisplay.PSI).judge(record.plan(), record.recording(), record.course());
            return open.finish(findings, Instant.EPOCH);
        }
    }

    /** Same verdicts, and each measured quantity within both stated uncertainties (k = 2) of the other. */
    public static void assertAgrees(RunRecord linked, RunRecord simulated) {
        Map<String, Finding> due =
                simulated.findings().stream().collect(Collectors.toMap(Finding::id, Function.identity()));
        assertThat(linked.findings()).hasSameSizeAs(simulated.findings());
        for (Finding finding : linked.findings()) {
            Finding other = due.get(finding.id());
            assertThat(finding.verdict()).as(finding.toString()).isEqualTo(other.verdict());
            finding.measured().ifPresent(measured -> {
                double both = measured.expanded()
                        + other.measured().orElseThrow().expanded()
                        + (finding.id().startsWith("throughout/") ? LOOKED_AT_EVERY_SECONDS : 0);
                if (both > 0) {
                    assertThat(measured.value())
                            .as(finding.id())
                            .isCloseTo(other.measured().orElseThrow().value(), within(both));
                }
            });
        }
    }
}
