package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;

/** Shows what a bench reads, again and again, and never arms it. */
final class Listening {
    private static final long TABLE_EVERY_US = 250_000;
    private static final long LINES_EVERY_US = 1_000_000;

    private final BenchFile file;
    private final InputText text;
    private final PrintWriter out;
    private final boolean moving;
    private int shown;

    Listening(BenchFile file, InputText text, PrintWriter out, boolean moving) {
        this.file = file;
        this.text = text;
        this.out = out;
        this.moving = moving;
    }

    /**
     * Listens until it is stopped or the time is up.
     *
     * @param forUs bench time, in µs
     */
    void to(Bench bench, OptionalLong forUs, BooleanSupplier stopped) throws BenchFailure {
        long every = moving ? TABLE_EVERY_US : LINES_EVERY_US;
        LiveReadings live = new LiveReadings();
        bench.watch();
        long beginUs = bench.nowUs();
        long endUs = forUs.isPresent() ? beginUs + forUs.getAsLong() : Long.MAX_VALUE;
        long dueUs = beginUs + Math.min(every, endUs - beginUs);
        while (!stopped.getAsBoolean() && bench.nowUs() < endUs) {
            bench.advance(dueUs, live);
            if (bench.nowUs() >= dueUs) {
                show(live, bench.nowUs() - beginUs);
                dueUs = Math.min(endUs, dueUs + every);
            }
        }
    }

    private void show(LiveReadings live, long sinceUs) {
        if (moving && shown > 0) {
            out.print("\u001b[" + shown + "A");
        }
        shown = 0;
        line(String.format(Locale.ROOT, "%.1f s; losses so far: %d", sinceUs * 1e-6, live.losses()));
        for (Input input : file.inputs()) {
            line(String.format(
                    Locale.ROOT, "  %-32s %-14s %s", input.signal().key(), input.point(), text.now(input, live)));
        }
        live.takeTroubles().forEach(trouble -> line("  bench: " + trouble));
        out.flush();
    }

    private void line(String line) {
        out.println(moving ? line + "\u001b[K" : line);
        shown++;
    }
}
