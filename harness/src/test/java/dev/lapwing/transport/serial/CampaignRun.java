package dev.lapwing.transport.serial;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.Integrity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.UnreadableRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.judge.Judge;
import dev.lapwing.link.BenchCard;
import dev.lapwing.measure.Recording;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.Progress;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.LinkedBench;
import dev.lapwing.transport.linked.ServedBench;
import dev.lapwing.transport.linked.TimedFault;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionTimeoutException;

/** One run of a short sequence over a pseudo-terminal of its own, with one fault. */
final class CampaignRun {
    static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/campaign.yaml");

    private static final int BAUD = 4_000_000;
    private static final int BEAT_MS = 500;
    /** The host's clock starts a little after the bench's; a moment need not be met to the microsecond. */
    private static final MonotonicClock MACHINE = MonotonicClock.system();

    private final double speed;
    private final long seed;
    private final DrawnFault fault;
    private final Path records;
    private final List<String> broken = new ArrayList<>();
    private Verdict verdict = Verdict.ERROR;
    private List<Finding> findings = List.of();
    private List<String> troubles = new ArrayList<>();

    /**
     * What came of it.
     *
     * @param troubles what the record says went wrong
     * @param broken   promises that did not hold; empty when all is well
     */
    record Came(
            long seed,
            DrawnFault fault,
            Verdict verdict,
            List<Finding> findings,
            List<String> troubles,
            boolean safe,
            List<String> broken) {}

    private CampaignRun(double speed, long seed, DrawnFault fault, Path records) {
        this.speed = speed;
        this.seed = seed;
        this.fault = fault;
        this.records = records;
    }

    static Came of(double speed, long seed, DrawnFault fault, Path records) throws IOException, BenchFailure {
        return new CampaignRun(speed, seed, fault, records).run();
    }

    private Came run() throws IOException, BenchFailure {
        SimulatedTerminals terminals = FarCab.terminals();
        BenchCard card = terminals.card(FarCab.token(2 * seed), speed);
        List<TimedFault> faults = fault.timed().stream().toList();
        ServedLine line = ServedLine.open(BAUD, faults, seed, speed, MACHINE);
        WatchedTerminals watched = new WatchedTerminals(terminals, card, speed, MACHINE);
        boolean safe;
        try (ServedBench served = new ServedBench(card, watched, watched.watched(line), speed, MACHINE, faults)) {
            served.start();
            drive(line);
            safe = watched.unsafe().isEmpty() && becomesSafe(served, watched);
        }
        if (!safe || !watched.unsafe().isEmpty()) {
            safe = false;
            broken.add("unsafe: " + watched.unsafe());
        }
        return new Came(seed, fault, verdict, findings, troubles, safe, broken);
    }

    /** The link is gone: the bench has its beat limit, and a wide margin of the machine for its thread to run. */
    private boolean becomesSafe(ServedBench served, WatchedTerminals watched) {
        try {
            Awaitility.await()
                    .atMost(Duration.ofMillis(BEAT_MS + 1_000))
                    .pollDelay(Duration.ZERO)
                    .until(() -> !served.armed() && watched.allSafe());
            return true;
        } catch (ConditionTimeoutException e) {
            return false;
        }
    }

    private void drive(ServedLine line) {
        BenchFile file = FarCab.reached(new LinkChoice.Serial(line.device(), BAUD, BEAT_MS, speed));
        try {
            HostLine host = HostLine.open(line.device(), BAUD);
            try (Bench bench =
                    LinkedBench.open(file, BEAT_MS, FarCab.host(2 * seed + 1).at(speed), host, MACHINE)) {
                RunRecord record = FarCab.on(SEQUENCE, bench, file, records, atItsMoment(file, host));
                verdict = record.verdict();
                findings = record.findings();
                record.course().troubles().forEach(trouble -> troubles.add(trouble.why()));
                readsBack();
            }
        } catch (BenchFailure e) {
            troubles.add("not begun: " + e.getMessage());
        }
    }

    private Progress atItsMoment(BenchFile file, HostLine host) {
        return new Progress() {
            private boolean done;

            @Override
            public void passed(long atUs, Recording recording) {
                if (done || atUs * 1_000 < fault.atNanos()) {
                    return;
                }
                done = true;
                if (fault.kind() == DrawnFault.Kind.HOST_GONE) {
                    host.close();
                } else if (fault.kind() == DrawnFault.Kind.SECOND_HOST) {
                    secondHost(file);
                }
            }
        };
    }

    private void secondHost(BenchFile file) {
        long session = new SplittableRandom(seed).nextLong();
        try (Bench second = SerialBench.open(file, (LinkChoice.Serial) file.link(), FarCab.host(session), MACHINE)) {
            broken.add("a second host was let in at " + second.identity());
        } catch (BenchFailure e) {
            // Turned away, as it must be.
        }
    }

    private void readsBack() {
        try {
            RunRecord again = RunRecord.open(records.resolve("far-cab"));
            if (again.integrity().state() != Integrity.State.WHOLE) {
                broken.add("record not whole: " + again.integrity());
            }
            List<Verdict> judged = new Judge(PressureDisplay.PSI)
                    .judge(again.plan(), again.recording(), again.course()).stream()
                            .map(Finding::verdict)
                            .toList();
            if (!judged.equals(findings.stream().map(Finding::verdict).toList())) {
                broken.add("judged again, other verdicts: " + judged);
            }
        } catch (UnreadableRecord e) {
            broken.add("record does not open: " + e.getMessage());
        }
    }
}
