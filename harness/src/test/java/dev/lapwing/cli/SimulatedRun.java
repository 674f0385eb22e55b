package dev.lapwing.cli;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.evidence.OpenRecord;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.evidence.RunIdentity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.judge.Judge;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.Resolution;
import dev.lapwing.plan.Resolver;
import dev.lapwing.plan.Subject;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.Afterwards;
import dev.lapwing.run.OperatorStop;
import dev.lapwing.run.Progress;
import dev.lapwing.run.Runner;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.simulated.SimulatedBench;
import java.time.Instant;
import java.util.List;
import java.util.OptionalLong;

/** Runs a sequence on the simulated bench for a test, its record in memory only. */
final class SimulatedRun {
    private SimulatedRun() {}

    static List<Finding> of(Sequence sequence, Fixture fixture, Simulation simulation, BenchFile benchFile, long seed)
            throws BenchFailure {
        Resolution resolution = Resolver.resolve(sequence, Subject.of(fixture), benchFile, PressureDisplay.PSI);
        if (!(resolution instanceof Resolution.Resolved resolved)) {
            throw new AssertionError(resolution.toString());
        }
        Plan plan = resolved.plan();
        RunIdentity identity = new RunIdentity(
                "test", "", RunClass.DRY, Instant.EPOCH, "", "", "", true, OptionalLong.of(seed), "", "", List.of());
        try (SimulatedBench bench = SimulatedBench.open(benchFile, fixture.wiring(), simulation, seed);
                OpenRecord open = OpenRecord.inMemory(identity, plan)) {
            new Runner(bench, Progress.NONE, new OperatorStop()).run(plan, open.log(), Afterwards.SAFE);
            RunRecord record = open.read();
            return new Judge(PressureDisplay.PSI).judge(record.plan(), record.recording(), record.course());
        }
    }
}
