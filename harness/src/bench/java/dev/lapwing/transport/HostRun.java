package dev.lapwing.transport;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.evidence.OpenRecord;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.evidence.RunIdentity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.plan.Plan;
import dev.lapwing.run.Afterwards;
import dev.lapwing.run.OperatorStop;
import dev.lapwing.run.Progress;
import dev.lapwing.run.Runner;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.OptionalLong;

/** Runs a plan as the harness does, its record on disk. */
final class HostRun {
    private HostRun() {}

    static RunRecord of(Plan plan, Path folder, Progress progress) throws BenchFailure {
        RunIdentity identity = new RunIdentity(
                "run-" + System.nanoTime(),
                "",
                RunClass.values()[0],
                Instant.EPOCH,
                "",
                "",
                Pressures.BOOT,
                false,
                OptionalLong.empty(),
                "benchmark",
                "",
                List.of());
        try (Bench bench = Link.open(plan.bench());
                OpenRecord record = OpenRecord.create(folder, identity, plan)) {
            new Runner(bench, progress, new OperatorStop()).run(plan, record.log(), Afterwards.SAFE);
            RunRecord read = record.read();
            if (!read.course().troubles().isEmpty()) {
                throw new IllegalStateException(read.course().troubles().toString());
            }
            return read;
        }
    }
}
