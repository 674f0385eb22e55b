package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

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

    private static final String WORD = "arm";

    private final PrintWriter out;
    private final PrintWriter err;

    /**
     * Who armed a bench, and on what grounds.
     *
     * @param how   in what way that was confirmed
     * @param facts that stood beside the checklist
     */
    record Armed(String name, String how, List<String> facts) {
        Armed {
            facts = List.copyOf(facts);
        }

        /** For the record: the name, then what was known. */
        List<String> remarks() {
            return Stream.concat(
                            Stream.of("armed by " + name + ", " + how + ": " + String.join(" ", CHECKLIST)),
                            facts.stream().map(fact -> "before arming: " + fact.strip()))
                    .toList();
        }
    }

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
     * @return empty if nobody does, or nobody is there to see that a line of the checklist does not hold: nothing may
     *     be armed
     */
    Optional<Armed> by(Optional<String> armedBy, BenchFile bench, ArmingFacts.Told facts, BufferedReader asked) {
        out.println("Before bench '" + bench.name() + "' is armed:");
        CAUTIONS.forEach(line -> out.println("  ! " + line));
        if (bench.link() instanceof LinkChoice.Modbus) {
            UNWATCHED.forEach(line -> out.println("  ! " + line));
        }
        CHECKLIST.forEach(line -> out.println("  [ ] " + line));
        facts.lines().forEach(line -> out.println("  " + line));
        out.flush();
        return armedBy.isPresent() ? named(armedBy.get().strip(), facts) : typed(facts, asked);
    }

    private Optional<Armed> named(String name, ArmingFacts.Told facts) {
        if (name.isEmpty()) {
            return refused("'--armed-by' names nobody");
        }
        if (!facts.implausible().isEmpty()) {
            return refused("'--armed-by' is for a bench of which every line above holds, and "
                    + String.join("; ", facts.implausible()) + ". Look at the bench, or arm it without '--armed-by',"
                    + " where a person answers");
        }
        out.println("Armed by " + name + ", who answers for every line above.");
        out.flush();
        return Optional.of(new Armed(name, "named on the command line", facts.lines()));
    }

    /** Name and word are typed apart, so that no sentence that refuses ends in the word that arms. */
    private Optional<Armed> typed(ArmingFacts.Told facts, BufferedReader asked) {
        String name = line("Where every line holds, type your name; an empty line leaves the bench safe:", asked);
        if (!name.isEmpty() && !name.equalsIgnoreCase(WORD)) {
            String word = line(name + ", type '" + WORD + "' to arm it; anything else leaves it safe:", asked);
            if (word.equals(WORD)) {
                return Optional.of(new Armed(name, "typed after the checklist", facts.lines()));
            }
        }
        return refused("a bench that nobody watches is armed with --armed-by NAME");
    }

    private Optional<Armed> refused(String why) {
        err.println("lapwing: not armed, and nothing was run: " + why);
        err.flush();
        return Optional.empty();
    }

    private String line(String question, BufferedReader asked) {
        out.println(question);
        out.flush();
        try {
            String line = asked.readLine();
            return line == null ? "" : line.strip();
        } catch (IOException e) {
            throw new UncheckedIOException("no answer can be read", e);
        }
    }
}
