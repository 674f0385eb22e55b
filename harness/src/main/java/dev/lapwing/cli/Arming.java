package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;

/** What stands between a command and live outputs on any bench but the one simulated in this process. */
final class Arming {
    private static final List<String> CAUTIONS = List.of(
            "Compressed air stores energy: a hose that comes off whips, an exhaust discharges without further warning.",
            "Moving rigging starts when the air or the supply comes back; nobody may be within its reach.",
            "Live supplies: isolate before touching the loom.",
            "Local codes, the maker's instructions and licensed practice come before anything that is printed here.",
            "The link is no safety function: emergency stop, relief valve and supply isolation are hard-wired.");

    private static final List<String> UNWATCHED = List.of(
            "Without a watchdog a relay keeps its last state when this computer, its program or the cable fails.",
            "A hard-wired stop must take the outputs' supply away: arm only where it is there and was tried today.");

    private static final List<String> CHECKLIST = List.of(
            "People are clear of the bench, the exhausts and the rigging, and know that it is about to be armed.",
            "Air is shut off and vented wherever a hose or cover was opened; all are closed and secured now.",
            "The stop button was tried today: pressing it makes the bench safe.",
            "Air and electrical supplies are within the range that the bench is made for.",
            "Pressure readings are plausible at zero, and every calibration is in date.",
            "The unit on the bench is the one that the fixture file describes.");

    private final PrintWriter out;
    private final PrintWriter err;

    Arming(PrintWriter out, PrintWriter err) {
        this.out = out;
        this.err = err;
    }

    /**
     * Who takes the responsibility for arming.
     *
     * @param armedBy a name given on the command line, for a bench that nobody watches; asks nothing then
     * @param facts   what the harness itself knows of the lines of the checklist
     * @param asked   where a person answers
     * @return empty if nobody does: nothing may be armed
     */
    Optional<String> by(Optional<String> armedBy, BenchFile bench, List<String> facts, BufferedReader asked) {
        out.println("Before bench '" + bench.name() + "' is armed:");
        CAUTIONS.forEach(line -> out.println("  ! " + line));
        if (bench.link() instanceof LinkChoice.Modbus) {
            UNWATCHED.forEach(line -> out.println("  ! " + line));
        }
        CHECKLIST.forEach(line -> out.println("  [ ] " + line));
        facts.forEach(line -> out.println("  " + line));
        out.flush();
        if (armedBy.isPresent()) {
            out.println("Armed by " + armedBy.get() + ", who answers for every line above.");
            out.flush();
            return armedBy.map(String::strip).filter(name -> !name.isEmpty());
        }
        out.println("Where every line holds, type your name and the word 'arm', such as 'J. Miller arm'.");
        out.println("Anything else leaves the bench safe.");
        out.flush();
        Optional<String> name = name(line(asked));
        if (name.isEmpty()) {
            err.println("lapwing: not armed; nothing was run. A bench that nobody watches is armed with"
                    + " --armed-by NAME");
            err.flush();
        }
        return name;
    }

    private static String line(BufferedReader asked) {
        try {
            String line = asked.readLine();
            return line == null ? "" : line;
        } catch (IOException e) {
            throw new UncheckedIOException("no answer can be read", e);
        }
    }

    /** The name before the word. */
    private static Optional<String> name(String line) {
        String typed = line.strip();
        return typed.matches("\\S.*\\s+arm")
                ? Optional.of(
                        typed.substring(0, typed.length() - "arm".length()).strip())
                : Optional.empty();
    }
}
