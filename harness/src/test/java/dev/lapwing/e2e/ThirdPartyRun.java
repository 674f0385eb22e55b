package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.plan.Course.Trouble;
import dev.lapwing.run.Progress;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.Agreement;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.SimulatedBeside;
import dev.lapwing.transport.serial.SerialBench;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * One sequence through the reference bench in C, with a train and a unit of its own, beside the same in this process.
 *
 * @param sequence its file's name without the ending
 * @param runs     how many there were: a machine that keeps a process waiting for long makes the bench safe, commands
 *                 late or samples missing, and what ended or stayed inconclusive so is run again
 * @param linked   the last of them
 */
record ThirdPartyRun(String sequence, int runs, RunRecord linked, Agreement agreement) {
    static final String HEAD = String.format(
            "%-28s %5s %-13s %8s %10s %6s  %s", "sequence", "runs", "verdict", "findings", "quantities", "|d|/U", "of");

    private static final Path UNIT = Path.of("fixtures/classic.yaml");
    private static final int BAUD = 4_000_000;
    private static final int BEAT_MS = 500;

    /** @param runsMax how often it may be begun */
    static ThirdPartyRun of(Path sequence, int speed, int runsMax, Path records) throws Exception {
        String name = name(sequence);
        RunRecord linked = linked(sequence, speed, records.resolve(name + "-1"));
        int runs = 1;
        while (cutShort(linked) && runs < runsMax) {
            runs++;
            linked = linked(sequence, speed, records.resolve(name + "-" + runs));
        }
        return new ThirdPartyRun(
                name,
                runs,
                linked,
                Agreement.of(linked, SimulatedBeside.of(sequence, linked, records.resolve(name + "-simulated"))));
    }

    private static boolean cutShort(RunRecord linked) {
        return !linked.course().troubles().isEmpty() || linked.verdict() == Verdict.INCONCLUSIVE;
    }

    private static String name(Path sequence) {
        return sequence.getFileName().toString().replace(".yaml", "");
    }

    private static RunRecord linked(Path sequence, int speed, Path records) throws Exception {
        try (ReferenceBench bench = ReferenceBench.start(
                        "simulated.points",
                        "--world-elsewhere",
                        "--tick-us",
                        "1000",
                        "--baud",
                        String.valueOf(BAUD),
                        "--speed",
                        String.valueOf(speed));
                TrainElsewhere train = TrainElsewhere.start(bench, UNIT, FarCab.SEED)) {
            BenchFile file = FarCab.reached(new LinkChoice.Serial(bench.device(), BAUD, BEAT_MS, speed));
            LinkChoice.Serial link = (LinkChoice.Serial) file.link();
            try (Bench serial = SerialBench.open(file, link, FarCab.host(1), MonotonicClock.system())) {
                RunRecord record = FarCab.on(sequence, serial, file, records, Progress.NONE);
                assertThat(train.failed()).isEmpty();
                return record;
            }
        }
    }

    /** What is not as it should be, a sentence each. */
    List<String> wrong() {
        List<String> all = new ArrayList<>();
        linked.course().troubles().stream().map(Trouble::why).forEach(all::add);
        all.addAll(agreement.differences());
        return all.stream().map(what -> sequence + ": " + what).toList();
    }

    String row() {
        return String.format(
                Locale.ROOT,
                "%-28s %5d %-13s %8d %10d %6.2f  %s",
                sequence,
                runs,
                linked.verdict().toString().toLowerCase(Locale.ROOT),
                agreement.findings(),
                agreement.quantities(),
                agreement.greatest(),
                agreement.greatestOf());
    }
}
