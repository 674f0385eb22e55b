package dev.lapwing.cli;

import dev.lapwing.evidence.DiskReason;
import dev.lapwing.evidence.RecordFailure;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.report.HtmlReport;
import dev.lapwing.report.JunitXml;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Writes the reports of a run beside its records. */
record ReportFiles(Path folder, PressureDisplay pressures) {

    /** Writes them and says where they are. */
    List<String> write(WholeRun run) {
        Path html = folder.resolve("report.html");
        Path junit = folder.resolve("junit.xml");
        try {
            Files.createDirectories(folder);
            Files.writeString(html, new HtmlReport(pressures).of(run));
            Files.writeString(junit, new JunitXml(pressures).of(run));
        } catch (IOException e) {
            throw new RecordFailure(folder + ": the report cannot be written: " + DiskReason.of(e), e);
        }
        return List.of("Report:  " + html, "Records: " + folder);
    }
}
