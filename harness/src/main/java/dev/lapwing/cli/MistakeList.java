package dev.lapwing.cli;

import dev.lapwing.source.Mistake;
import java.io.PrintWriter;
import java.util.List;

/** Prints what is wrong in files. */
final class MistakeList {
    private static final int SHOWN_MAX = 20;

    private MistakeList() {}

    static void print(List<Mistake> mistakes, PrintWriter out) {
        mistakes.stream().limit(SHOWN_MAX).forEach(out::println);
        if (mistakes.size() > SHOWN_MAX) {
            out.println("... and " + (mistakes.size() - SHOWN_MAX) + " more");
        }
        out.flush();
    }
}
