package dev.lapwing.cli;

import dev.lapwing.evidence.DiskReason;
import dev.lapwing.evidence.UnreadableRecord;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.report.HtmlReport;
import dev.lapwing.report.JunitXml;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Makes reports of stored records. */
@Command(
        name = "report",
        mixinStandardHelpOptions = true,
        description = "Shows the results of stored records again, on the terminal or as files.",
        exitCodeList = {
            "0:shown or written, whatever the verdict: 'lapwing judge' ends with that",
            "64:a mistake in usage, no record, or the report cannot be written"
        })
final class ReportCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Reading reading;

    @Parameters(arity = "1", paramLabel = "RECORD", description = "A record, or the folder of a whole run.")
    private Path folder;

    @Option(
            names = "--html",
            paramLabel = "FILE",
            description = "Writes them as one HTML page that needs nothing else.")
    private Optional<Path> html;

    @Option(names = "--junit", paramLabel = "FILE", description = "Writes them as JUnit XML.")
    private Optional<Path> junit;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        try {
            WholeRun run = Records.in(folder);
            if (html.isPresent()) {
                Files.writeString(html.get(), new HtmlReport(reading.pressures()).of(run));
                out.println("Written: " + html.get());
            }
            if (junit.isPresent()) {
                Files.writeString(junit.get(), new JunitXml(reading.pressures()).of(run));
                out.println("Written: " + junit.get());
            }
            if (html.isEmpty() && junit.isEmpty()) {
                run.records().forEach(record -> out.print(reading.report().sequence(record)));
                run.gaps().forEach(gap -> out.print(reading.report().gap(gap)));
                out.print(reading.report().summary(run));
            }
            out.flush();
            return ExitCode.PASS.code();
        } catch (UnreadableRecord e) {
            err.println("lapwing: " + e.getMessage());
        } catch (IOException e) {
            err.println("lapwing: the report cannot be written: " + DiskReason.of(e));
        }
        return ExitCode.USAGE.code();
    }
}
