package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;

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
import dev.lapwing.finding.Verdict;
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
import java.util.OptionalLong;
import java.util.SplittableRandom;

/** A short sequence of some twenty seconds of bench time, for every way in which a bench is reached. */
public final class FarCab {
    public static final long SEED = 7;

    /** The bench of every test, reached in this process. */
    public static final BenchFile IN_THIS_PROCESS =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();

    private static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/far-cab.yaml");
    private static final Fixture UNIT =
            FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow();

    private FarCab() {}

    /** The same bench, reached as said. */
    public static BenchFile reached(LinkChoice link) {
        return IN_THIS_PROCESS.reached(link);
    }

    public static Bench simulated() throws BenchFailure {
        return SimulatedBench.open(IN_THIS_PROCESS, UNIT.wiring(), UNIT.simulation(), SEED);
    }

    /** The same, with another step of the pneumatic plant, in s. */
    public static Bench simulated(double stepSeconds) throws BenchFailure {
        LinkChoice.Simulated figures = (LinkChoice.Simulated) IN_THIS_PROCESS.link();
        LinkChoice other = new LinkChoice.Simulated(
                stepSeconds,
                figures.commandDelayUs(),
                figures.transducerError(),
                figures.spanError(),
                figures.transducerNoise(),
                figures.clockError());
        return SimulatedBench.open(reached(other), UNIT.wiring(), UNIT.simulation(), SEED);
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

    /** It passes on that bench, reached over its link, as it does on the simulated one. */
    public static RunRecord passesAsSimulated(Bench bench, BenchFile file, Path records) throws BenchFailure {
        RunRecord linked = on(bench, file, records.resolve("linked"), Progress.NONE);
        RunRecord simulated;
        try (Bench other = simulated()) {
            simulated = on(other, IN_THIS_PROCESS, records.resolve("simulated"), Progress.NONE);
        }
        assertThat(linked.course().troubles()).isEmpty();
        assertThat(linked.verdict()).isEqualTo(Verdict.PASS);
        assertAgrees(linked, simulated);
        return linked;
    }

    /** Same verdicts, and each measured quantity within both stated uncertainties of the other. */
    public static void assertAgrees(RunRecord linked, RunRecord simulated) {
        assertThat(Agreement.of(linked, List.of(simulated)).differences()).isEmpty();
    }
}
