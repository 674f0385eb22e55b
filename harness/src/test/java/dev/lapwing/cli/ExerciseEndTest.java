package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.ForwardingBench;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.transport.linked.FarCab;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Nobody is told that a bench is safe which did not say so. */
class ExerciseEndTest {
    private static final BenchFile FILE =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();

    private final Operator operator = new Operator(
            new BufferedReader(new StringReader("")), new PrintWriter(new StringWriter(), true), () -> false);
    private final Exercise exercise = new Exercise(FILE, List.of(), PressureDisplay.PSI, operator);

    @Test
    void aBenchThatSaysThatItIsSafeIsBelieved() throws Exception {
        try (Bench bench = FarCab.simulated()) {
            exercise.on(bench);
            assertThatCode(() -> exercise.end(bench)).doesNotThrowAnyException();
        }
    }

    @Test
    void oneThatSaysNothingIsNot() throws Exception {
        assertThatThrownBy(() -> ended(""))
                .isInstanceOf(BenchFailure.class)
                .hasMessage("the bench did not say that it is safe; make sure by hand that it is");
    }

    @Test
    void whatItTellsInsteadIsTold() throws Exception {
        assertThatThrownBy(() -> ended("'R1' of module 3 reads back 1"))
                .hasMessage("the bench did not say that it is safe; make sure by hand that it is. It told: 'R1' of"
                        + " module 3 reads back 1");
    }

    private void ended(String fault) throws Exception {
        try (Bench bench = FarCab.simulated()) {
            exercise.on(bench);
            exercise.end(new SaysOtherwise(bench, fault));
        }
    }

    /** Never says that it is safe, but what is wrong, if anything is. */
    private record SaysOtherwise(Bench to, String fault) implements ForwardingBench {
        @Override
        public void advance(long untilUs, BenchListener listener) throws BenchFailure {
            to.advance(untilUs, new SelectiveListener() {});
            if (!fault.isEmpty()) {
                listener.fault(untilUs, "", fault);
            }
        }
    }
}
