package dev.lapwing.signal;

import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Time for each sample of a nested condition, at 1 kHz: the same whatever its bounds, but for what no longer fits into
 * the processor's cache.
 *
 * <p>Measured once, processor time of the thread on a shared machine (OpenJDK 17), at bounds of 10 ms, 1 s and 100 s:
 * always-eventually 0.16 µs, 0.17 µs and 0.21 µs a sample, until 0.09 µs, 0.08 µs and 0.08 µs.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class TemporalBenchmark {
    private static final int SAMPLES = 400_000;

    /** Bounds of its operators. */
    @Param({"10", "1000", "100000"})
    public int boundMs;

    private final double[][] values = new double[SAMPLES][2];

    @Setup
    public void walk() {
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 1; i < SAMPLES; i++) {
            values[i][0] = 0.999 * values[i - 1][0] + random.nextDouble() - 0.5;
            values[i][1] = 0.999 * values[i - 1][1] + random.nextDouble() - 0.5;
        }
    }

    @Benchmark
    @OperationsPerInvocation(SAMPLES)
    public double alwaysEventually() {
        Formula soon = new Formula.Eventually(0, boundMs * 1000L, new Formula.Atom(0));
        Formula either = new Formula.AnyOf(List.of(new Formula.Atom(1), soon));
        return run(new Formula.Always(0, boundMs * 1000L, either));
    }

    @Benchmark
    @OperationsPerInvocation(SAMPLES)
    public double until() {
        return run(new Formula.Until(0, boundMs * 1000L, new Formula.Atom(0), new Formula.Atom(1)));
    }

    private double run(Formula formula) {
        Robustness robustness = new Robustness(formula);
        double sum = 0;
        for (int i = 0; i < SAMPLES; i++) {
            robustness.sample(i * 1000L, values[i]);
            for (; robustness.known(); robustness.next()) {
                sum += robustness.value();
            }
        }
        return sum;
    }
}
