package dev.lapwing.cli;

import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.Option;

/** The command line: every way into the harness starts here. */
@Command(
        name = "lapwing",
        description = "Proves brake-controller electronics on a bench.",
        mixinStandardHelpOptions = true,
        versionProvider = Lapwing.Version.class,
        subcommands = {
            RunCommand.class,
            CheckCommand.class,
            JudgeCommand.class,
            ReportCommand.class,
            BenchCommand.class,
            CoverageCommand.class
        },
        exitCodeList = {"0:pass", "1:fail", "2:inconclusive", "3:error: bench or harness broke, or it was stopped"},
        footer = {"", "'lapwing run --help' shows the options of run and what its exit codes mean, and so on."})
public final class Lapwing {
    @Option(
            names = "--trace",
            scope = CommandLine.ScopeType.INHERIT,
            description = "Show the stack trace of a bug of the harness.")
    private boolean trace;

    /** Runs one command and ends the process with its exit code. */
    public static void main(String[] args) {
        System.exit(execute(args, writer(System.out), writer(System.err)));
    }

    /** Runs one command and gives its exit code. */
    static int execute(String[] args, PrintWriter out, PrintWriter err) {
        Lapwing lapwing = new Lapwing();
        CommandLine line = new CommandLine(lapwing);
        line.setOut(out);
        line.setErr(err);
        Usage.of(line);
        alike(line);
        line.setExecutionExceptionHandler((exception, where, parsed) -> lapwing.bug(exception, err));
        if (args.length == 0) {
            line.usage(out);
            return ExitCode.USAGE.code();
        }
        try {
            return line.execute(args);
        } catch (StackOverflowError | OutOfMemoryError | LinkageError e) {
            // Left to itself the machine would end with 1, which says that the unit failed.
            return lapwing.bug(e, err);
        }
    }

    /** Every command answers --version alike, and says in its help what its exit codes mean. */
    private static void alike(CommandLine line) {
        line.getCommandSpec().versionProvider(new Version());
        UsageMessageSpec help = line.getCommandSpec().usageMessage();
        Map<String, String> codes = new LinkedHashMap<>(help.exitCodeList());
        codes.putIfAbsent(String.valueOf(ExitCode.USAGE.code()), "a mistake in files or usage");
        codes.put(String.valueOf(ExitCode.BUG.code()), "a bug of the harness");
        help.exitCodeListHeading("%nExit codes:%n").exitCodeList(codes);
        line.getSubcommands().values().forEach(Lapwing::alike);
    }

    private int bug(Throwable bug, PrintWriter err) {
        err.println("lapwing: a bug of the harness: " + bug);
        if (trace) {
            bug.printStackTrace(err);
        } else {
            err.println("lapwing: run again with --trace to see where, and report it with the files that you used");
        }
        err.flush();
        return ExitCode.BUG.code();
    }

    private static PrintWriter writer(PrintStream stream) {
        return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), true);
    }

    /** Reads the version from the jar's manifest, the only place that states it. */
    static final class Version implements CommandLine.IVersionProvider {
        /** The version, or words that say why there is none. */
        static String text() {
            return Optional.ofNullable(Lapwing.class.getPackage().getImplementationVersion())
                    .orElse("(not built into a jar)");
        }

        @Override
        public String[] getVersion() {
            return new String[] {"lapwing " + text()};
        }
    }
}
