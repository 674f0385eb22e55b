package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.cli.Exercise.Result;
import dev.lapwing.cli.Exercise.Seen;
import dev.lapwing.cli.ServedForTest.Ended;
import dev.lapwing.quantity.PressureDisplay;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Commissioning commands against a bench behind a real pseudo-terminal. */
class CommissioningIT {
    @TempDir
    private Path folder;

    @Test
    void valuesAreListenedToInTheirUnits() throws Exception {
        try (ServedForTest served = ServedForTest.open()) {
            Ended heard =
                    ServedForTest.lapwing("bench", "listen", served.file(folder).toString(), "--for", "2s", "--plain");

            assertThat(heard.err()).isEmpty();
            assertThat(heard.exit()).isZero();
            assertThat(heard.out())
                    .containsPattern("brake-cylinder@1 +BC1 +-?[0-9.]+ psi")
                    .containsPattern("handle-angle +ANGLE +-?[0-9.]+ deg")
                    .containsPattern("wire/application +D1 +(on|off)")
                    .doesNotContain("no sample yet");
        }
    }

    @Test
    void anExerciseFindsTwoOutputsThatAreMixedUp() throws Exception {
        try (ServedForTest served = ServedForTest.open()) {
            Path path = served.file(folder);
            String mixedUp = Files.readString(path)
                    .replace("supply/ep: {point: V-EP", "supply/ep: {point: V-XX")
                    .replace("supply/control: {point: V-CT", "supply/control: {point: V-EP")
                    .replace("V-XX", "V-CT");
            Files.writeString(path, mixedUp);
            BenchFile file = served.patient(path);
            StringWriter said = new StringWriter();
            Operator operator = new Operator(
                    new BufferedReader(new StringReader("40 degrees\ny\nnonsense\n\ny\nskip\nstop\n")),
                    new PrintWriter(said, true),
                    () -> false);
            List<String> keys = List.of("handle", "supply/ep", "deadman", "acknowledgement");
            Exercise exercise = new Exercise(
                    file,
                    file.outputs().stream()
                            .filter(output -> keys.contains(output.actuator().key()))
                            .toList(),
                    PressureDisplay.PSI,
                    operator);
            try (Bench bench = Benches.outside(file)) {
                exercise.on(bench);
            }

            assertThat(exercise.results())
                    .containsExactly(
                            new Result("handle", Seen.CONFIRMED),
                            new Result("supply/ep", Seen.NOT_CONFIRMED),
                            new Result("deadman", Seen.LEFT_OUT),
                            new Result("acknowledgement", Seen.LEFT_OUT));
            assertThat(said.toString())
                    .contains("It counts as not confirmed: what is to read it back did not move.")
                    .contains("'nonsense' is no value of it", "! 'supply/ep' should have moved with it and did not")
                    .containsPattern("handle-angle on ANGLE: -?0[0-9.]* deg.* → (40|39)[0-9.]* deg")
                    .containsPattern("supply/control on U-CT: -?[0-9.]+ V → [0-9.]+ V");
        }
    }

    @Test
    void theStopButtonEndsAnExerciseAndItIsSaid() throws Exception {
        try (ServedForTest served = ServedForTest.open()) {
            BenchFile file = served.patient(served.file(folder));
            Operator operator =
                    new Operator(new PressesTheButton(served), new PrintWriter(new StringWriter(), true), () -> false);
            Exercise exercise = new Exercise(file, List.of(file.outputs().get(0)), PressureDisplay.PSI, operator);
            try (Bench bench = Benches.outside(file)) {
                assertThatThrownBy(() -> exercise.on(bench))
                        .isInstanceOf(BenchFailure.class)
                        .hasMessage("the bench made itself safe: the stop button was pressed");
            }

            assertThat(served.armed()).isFalse();
            assertThat(exercise.results()).extracting(Result::seen).containsExactly(Seen.LEFT_OUT);
        }
    }

    /** Drives the first output, then presses the stop button instead of answering. */
    private static final class PressesTheButton extends BufferedReader {
        private final ServedForTest served;
        private boolean drove;

        PressesTheButton(ServedForTest served) {
            super(new StringReader(""));
            this.served = served;
        }

        @Override
        public String readLine() {
            if (drove) {
                served.stopButton();
            }
            drove = true;
            return "";
        }
    }

    @Test
    void aBenchThatIsListenedToIsNotArmed() throws Exception {
        try (ServedForTest served = ServedForTest.open()) {
            BenchFile file = served.patient(served.file(folder));
            LiveReadings live = new LiveReadings();
            try (Bench bench = Benches.outside(file)) {
                bench.watch();
                long untilUs = bench.nowUs() + 2_000_000;
                bench.set(1, Map.of("W1", 1), bench.nowUs() + 100_000, 0);
                assertThatThrownBy(() -> {
                            while (bench.nowUs() < untilUs) {
                                bench.advance(untilUs, live);
                            }
                        })
                        .isInstanceOf(BenchFailure.class)
                        .hasMessageContaining("it is not armed");
            }
        }
    }
}
