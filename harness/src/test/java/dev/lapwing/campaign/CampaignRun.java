package dev.lapwing.campaign;

import static dev.lapwing.Patience.await;
import static dev.lapwing.campaign.Reach.BEAT_MS;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.evidence.Integrity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.UnreadableRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.judge.Judge;
import dev.lapwing.link.BenchCard;
import dev.lapwing.plan.Course;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.Progress;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.HostCarrier;
import dev.lapwing.transport.linked.LinkedBench;
import dev.lapwing.transport.linked.PacedClock;
import dev.lapwing.transport.linked.WatchedBench;
import dev.lapwing.transport.linked.WatchedTerminals;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.awaitility.core.ConditionTimeoutException;

/** One run of a short sequence over a link of its own, with one fault. */
final class CampaignRun {
    static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/campaign.yaml");

    private static final MonotonicClock MACHINE = MonotonicClock.system();

    private final long seed;
    private final DrawnFault fault;
    private final Path folder;
    private final List<String> troubles = new ArrayList<>();
    private final List<String> broken = new ArrayList<>();
    private Verdict verdict = Verdict.ERROR;
    private List<Finding> findings = List.of();
    private boolean complete;

    /**
     * What came of it.
     *
     * @param complete whether every step was done and nothing went wrong
     * @param troubles what the record says went wrong
     * @param broken   promises that did not hold; empty when all is well
     */
    record Came(
            long seed,
            DrawnFault fault,
            Verdict verdict,
            List<Finding> findings,
            boolean complete,
            List<String> troubles,
            boolean safe,
            List<String> broken) {
        /** Of a run that could not be had. */
        static Came broken(long seed, DrawnFault fault, String why) {
            List<String> broken = new ArrayList<>(List.of(why));
            return new Came(seed, fault, Verdict.ERROR, List.of(), false, List.of(why), true, broken);
        }
    }

    /** @param folder empty, for whatever the run writes */
    CampaignRun(long seed, DrawnFault fault, Path folder) {
        this.seed = seed;
        this.fault = fault;
        this.folder = folder;
    }

    Came run() throws IOException, BenchFailure, InterruptedException {
        SimulatedTerminals terminals = FarCab.terminals();
        BenchCard card = terminals.card(FarCab.token(2 * seed));
        boolean safe;
        try (Reach reach =
                fault.over().broker() ? new BrokerReach(folder, card, fault, seed) : new SerialReach(fault, seed)) {
            SharedCarrier shared = new SharedCarrier(reach.bench());
            WatchedTerminals watched;
            try (WatchedBench bench = WatchedBench.serve(card, terminals, shared, 1, fault.timed())) {
                watched = bench.terminals();
                drive(new Deed(fault, reach, shared, bench, seed));
                safe = becomesSafe(bench) && watched.unsafe().isEmpty();
            }
            if (!safe) {
                broken.add("unsafe: " + (watched.unsafe().isEmpty() ? "still live" : watched.unsafe()));
            }
        }
        return new Came(seed, fault, verdict, findings, complete, troubles, safe, broken);
    }

    private static boolean becomesSafe(WatchedBench bench) {
        try {
            await("the bench is safe")
                    .pollInSameThread()
                    .pollDelay(Duration.ZERO)
                    .until(() -> !bench.armed() && bench.terminals().allSafe());
            return true;
        } catch (ConditionTimeoutException e) {
            return false;
        }
    }

    private void drive(Deed deed) throws IOException, InterruptedException {
        boolean ofAProcess = fault.kind() == Kind.HOST_KILLED || fault.kind() == Kind.HOST_TERMINATED;
        try (deed) {
            Optional<Path> record = ofAProcess ? process(deed) : inThisProcess(deed);
            if (record.isPresent()) {
                read(record.get());
            }
        }
        broken.addAll(deed.broken());
    }

    private Optional<Path> process(Deed deed) throws IOException, InterruptedException {
        HostProcess host = HostProcess.start(folder, deed.reach().inBenchFile(), SEQUENCE);
        deed.begin(() -> {
            if (fault.kind() == Kind.HOST_KILLED) {
                host.kill();
            } else {
                host.terminate();
            }
        });
        if (!host.ends()) {
            broken.add("the host's process did not end: " + host.said());
        }
        Optional<Path> record = host.record();
        if (record.isEmpty()) {
            troubles.add("not begun: " + host.said());
        }
        return record;
    }

    private Optional<Path> inThisProcess(Deed deed) {
        BenchFile file = FarCab.reached(deed.reach().choice());
        String session = FarCab.token(2 * seed + 1);
        try {
            HostCarrier carrier = deed.reach().host(session);
            deed.begin(carrier::close);
            try (Bench bench =
                    LinkedBench.open(file, BEAT_MS, FarCab.host(2 * seed + 1), carrier, new PacedClock(MACHINE, 1))) {
                FarCab.on(SEQUENCE, bench, file, folder.resolve("records"), Progress.NONE);
            }
            return Optional.of(folder.resolve("records/far-cab"));
        } catch (BenchFailure e) {
            troubles.add("not begun: " + e.getMessage());
            return Optional.empty();
        }
    }

    private void read(Path where) {
        try {
            RunRecord record = RunRecord.open(where);
            verdict = record.verdict();
            complete = record.course().ending() == Course.Ending.COMPLETE
                    && record.course().troubles().isEmpty();
            record.course().troubles().forEach(trouble -> troubles.add(trouble.why()));
            findings = new Judge(PressureDisplay.PSI).judge(record.plan(), record.recording(), record.course());
            boolean cutOff =
                    fault.kind() == Kind.HOST_KILLED && record.findings().isEmpty();
            if (cutOff) {
                return;
            }
            if (record.integrity().state() != Integrity.State.WHOLE) {
                broken.add("record not whole: " + record.integrity());
            }
            if (!verdicts(findings).equals(verdicts(record.findings()))) {
                broken.add("judged again, other verdicts: " + verdicts(findings));
            }
        } catch (UnreadableRecord e) {
            broken.add("record does not open: " + e.getMessage());
        }
    }

    private static List<Verdict> verdicts(List<Finding> findings) {
        return findings.stream().map(Finding::verdict).toList();
    }
}
