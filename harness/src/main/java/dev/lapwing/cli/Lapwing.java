package dev.lapwing.cli;

import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** The command line: every way into the harness starts here. */
@Command(
        name = "lapwing",
        description = "Proves brake-controller electronics on a bench.",
        mixinStandardHelpOptions = true,
        versionProvider = Lapwing.Version.class)
public final class Lapwing {

    /** Runs one command and ends the process with its exit code. */
    public static void main(String[] args) {
        System.exit(new CommandLine(new Lapwing()).execute(args));
    }

    /** Reads the version from the jar's manifest, the only place that states it. */
    static final class Version implements CommandLine.IVersionProvider {
        @Override
        public String[] getVersion() {
            String version = Optional.ofNullable(Lapwing.class.getPackage().getImplementationVersion())
                    .orElse("(not built into a jar)");
            return new String[] {"lapwing " + version};
        }
    }
}
