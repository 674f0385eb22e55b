package dev.lapwing.cli;

import dev.lapwing.source.Mistake;
import java.util.List;
import java.util.stream.Collectors;

/** What is wrong in files, as far as anybody reads it in one go. */
final class MistakeList {
    private static final int SHOWN_MAX = 20;

    private MistakeList() {}

    /** A line each; of many, the first ones. */
    static String of(List<Mistake> mistakes) {
        String shown = mistakes.stream().limit(SHOWN_MAX).map(Mistake::toString).collect(Collectors.joining("\n"));
        int more = mistakes.size() - SHOWN_MAX;
        return more > 0 ? shown + "\n... and " + more + " more ('lapwing check' shows all of a file's)" : shown;
    }
}
