package dev.lapwing.transport.linked;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.run.Progress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Simulated runs of the same specimen beside a run over a link, driven at its instants. Several, in other steps of the
 * plant: in this process commands and valves act where a step ends, always alike; behind a link steps end elsewhere,
 * and a cylinder that fills at 15 psi/s differs by 0.015 psi for each ms.
 */
public final class SimulatedBeside {
    private static final List<Double> STEPS_SECONDS = List.of(1e-3, 0.9e-3, 0.8e-3, 0.7e-3, 0.6e-3, 0.5e-3, 0.4e-3);
    /** What two executions of one command may differ by: a tick of the bench. */
    private static final long WITHIN_US = 1_000;

    private SimulatedBeside() {}

    /** @param records folder for their records, one in it for each */
    public static List<RunRecord> of(Path sequence, RunRecord linked, Path records) throws BenchFailure {
        List<RunRecord> all = new ArrayList<>();
        for (int i = 0; i < STEPS_SECONDS.size(); i++) {
            try (Bench bench = new SameInstants(FarCab.simulated(STEPS_SECONDS.get(i)), linked, WITHIN_US, i)) {
                Path folder = records.resolve(Integer.toString(i));
                all.add(FarCab.on(sequence, bench, FarCab.IN_THIS_PROCESS, folder, Progress.NONE));
            }
        }
        return all;
    }
}
