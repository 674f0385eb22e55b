package dev.lapwing.report;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.quantity.PressureDisplay;
import java.util.List;

/**
 * A run as one page that needs nothing else: no network, no script. At most {@value #BYTES_MAX} bytes.
 *
 * @param display unit of pressures
 */
public record HtmlReport(PressureDisplay display) {
    static final int BYTES_MAX = 5_000_000;

    /** The whole page, ending in a line feed. */
    public String of(List<RunRecord> records) {
        return "<!DOCTYPE html>\n<title>" + Sentences.count(records.size(), "sequence") + "</title>\n";
    }
}
