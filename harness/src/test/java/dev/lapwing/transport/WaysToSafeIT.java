package dev.lapwing.transport;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.SafetyLimit;
import dev.lapwing.evidence.Integrity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.link.Wire;
import dev.lapwing.measure.Recording;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.run.Progress;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.WatchedBench;
import dev.lapwing.transport.serial.SerialBench;
import dev.lapwing.transport.serial.ServedLine;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whatever ends a run over a serial line, it ends in one place: the bench is safe within its beat limit, the run is an
 * error, and the record reads back. A pulled cable and a lost broker stand with their links' own tests; Ctrl-C,
 * SIGTERM, a closed terminal, a dead host and a full disk in {@code HostEndsIT}, the first three over Modbus in
 * {@code ModbusModulesIT}.
 */
class WaysToSafeIT {
    private static final int BAUD = 4_000_000;
    /** Longer than a real bench may offer: nothing is live here, and a busy machine may stand still for a while. */
    private static final int BEAT_MS = 1_500;

    private static final double BEAT_TIMES = (double) BEAT_MS / Wire.BEAT_MS_MAX;
    private static final MonotonicClock CLOCK = MonotonicClock.system();
    private static final double LIMIT_PASCALS = 200_000;

    @TempDir
    private Path records;

    private WatchedBench served;
    private LinkChoice.Serial link;
    private BenchFile file;

    @BeforeEach
    void serve() throws BenchFailure, IOException {
        SimulatedTerminals terminals = FarCab.terminals();
        ServedLine line = ServedLine.open(BAUD);
        served = WatchedBench.serve(terminals.card(FarCab.token(1), BEAT_TIMES), terminals, line, 1);
        link = new LinkChoice.Serial(line.device(), BAUD, BEAT_MS, 1);
        file = FarCab.reached(link);
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private interface WhenOpened {
        void come();
    }

    private static Progress opened(WhenOpened what) {
        return new Progress() {
            @Override
            public void opened(PlannedExpectation expectation, long atUs) {
                what.come();
            }
        };
    }

    private RunRecord run(BenchFile on, Progress progress) throws BenchFailure {
        try (Bench bench = SerialBench.open(on, link, FarCab.host(2), CLOCK)) {
            return FarCab.on(bench, on, records, progress);
        }
    }

    private void endedSafe(RunRecord record, String why) throws Exception {
        assertThat(record.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(record.course().troubles().get(0).why()).contains(why);
        served.endsSafe();
        RunRecord again = RunRecord.open(records.resolve("far-cab"));
        assertThat(again.integrity().state()).isEqualTo(Integrity.State.WHOLE);
        assertThat(again.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(again.samples()).isPositive();
    }

    @Test
    void theStopButton() throws Exception {
        RunRecord record = run(file, opened(() -> served.served().stopButton(true)));

        endedSafe(record, "the stop button was pressed");
        assertThatThrownBy(() -> {
                    try (Bench bench = SerialBench.open(file, link, FarCab.host(3), CLOCK)) {
                        bench.arm();
                    }
                })
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("its stop button is pressed");
    }

    @Test
    void aReadingBeyondItsLimit() throws Exception {
        RunRecord record = run(limited(), Progress.NONE);

        endedSafe(record, "a reading left its safety limits");
    }

    /** The bench of the tests, with a limit that a full application goes beyond. */
    private BenchFile limited() {
        Signal cylinder = new Signal.Pressure(PressureKind.BRAKE_CYLINDER, 2);
        Input input = file.inputs().stream()
                .filter(each -> each.signal().equals(cylinder))
                .findFirst()
                .orElseThrow();
        int most = (int) input.calibration().orElseThrow().counts(LIMIT_PASCALS);
        return new BenchFile(
                file.file(),
                file.name(),
                link,
                file.clockRateBound(),
                file.points(),
                file.inputs(),
                file.outputs(),
                file.streams(),
                List.of(new SafetyLimit(cylinder, input.point(), Optional.empty(), Optional.of(most))));
    }

    @Test
    void anErrorOfTheHarness() throws Exception {
        Progress breaks = new Progress() {
            private boolean watching;

            @Override
            public void opened(PlannedExpectation expectation, long atUs) {
                watching = true;
            }

            @Override
            public void passed(long atUs, Recording recording) {
                if (watching) {
                    throw new IllegalStateException("broken on purpose");
                }
            }
        };
        try (Bench bench = SerialBench.open(file, link, FarCab.host(2), CLOCK)) {
            assertThatThrownBy(() -> FarCab.on(bench, file, records, breaks)).hasMessage("broken on purpose");

            served.endsSafe("host");
        }
        assertThat(RunRecord.open(records.resolve("far-cab"))
                        .course()
                        .troubles()
                        .get(0)
                        .why())
                .contains("an error of the harness");
    }

    @Test
    void anEndlessStepOfTheHarness() throws Exception {
        Progress stands = new Progress() {
            private boolean stood;

            @Override
            public void passed(long atUs, Recording recording) {
                if (!stood && atUs > 3_000_000) {
                    stood = true;
                    await("nobody advances the bench, so it misses its heartbeat")
                            .until(() -> !served.armed());
                }
            }
        };

        endedSafe(run(file, stands), "it heard nothing from this host for too long");
    }
}
