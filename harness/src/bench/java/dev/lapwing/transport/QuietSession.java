package dev.lapwing.transport;

import com.sun.management.OperatingSystemMXBean;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.run.Progress;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Processor time of an armed session in which nothing happens but heartbeats and samples. Counted is the whole process
 * but for the threads that play the bench.
 */
final class QuietSession {
    private static final String BENCH = "lapwing served";
    private static final long WARM_US = 10_000_000;

    private QuietSession() {}

    /** One line of text. */
    static String of(String name, Link link, long everyUs, int seconds, Path folder) throws BenchFailure {
        Counted counted = new Counted();
        List<PlanStep> steps = List.of(
                new PlanStep.Wait(WARM_US, "let the code be compiled", "benchmark:1:1"),
                new PlanStep.Wait(seconds * 1_000_000L, "wait", "benchmark:2:1"));
        HostRun.of(Pressures.plan(Pressures.file(link.choice(), everyUs), steps), folder, counted);
        link.close();
        return String.format(
                Locale.ROOT, "%-24s %5.2f %% of one processor  (%s)", name, counted.share(), counted.parts());
    }

    /** Processor time and elapsed time of the last step. */
    private static final class Counted implements Progress {
        private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        private final OperatingSystemMXBean system =
                (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
        private Map<String, Long> before = Map.of();
        private Map<String, Long> after = Map.of();
        private long fromNanos;
        private long toNanos;

        @Override
        public void step(Part part, PlanStep step, long atUs) {
            fromNanos = System.nanoTime();
            before = now();
        }

        /** The bench is safe, its threads are still there. */
        @Override
        public void ended(long atUs, Course.Ending ending) {
            after = now();
            toNanos = System.nanoTime();
        }

        private Map<String, Long> now() {
            Map<String, Long> nanos = new TreeMap<>();
            nanos.put("", system.getProcessCpuTime());
            for (long id : threads.getAllThreadIds()) {
                var info = threads.getThreadInfo(id);
                if (info != null) {
                    nanos.merge(info.getThreadName(), Math.max(0, threads.getThreadCpuTime(id)), Long::sum);
                }
            }
            return nanos;
        }

        private long spent(String thread) {
            return after.getOrDefault(thread, 0L) - before.getOrDefault(thread, 0L);
        }

        double share() {
            long bench = after.keySet().stream()
                    .filter(name -> name.startsWith(BENCH))
                    .mapToLong(this::spent)
                    .sum();
            return percent(spent("") - bench);
        }

        private double percent(long nanos) {
            return 100.0 * nanos / (toNanos - fromNanos);
        }

        String parts() {
            StringBuilder text = new StringBuilder();
            for (String thread : after.keySet()) {
                if (!thread.isEmpty() && !thread.startsWith(BENCH) && percent(spent(thread)) >= 0.02) {
                    text.append(text.isEmpty() ? "" : ", ")
                            .append(String.format(Locale.ROOT, "%s %.2f %%", thread, percent(spent(thread))));
                }
            }
            return text.toString();
        }
    }
}
