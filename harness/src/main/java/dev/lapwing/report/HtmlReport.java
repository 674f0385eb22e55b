package dev.lapwing.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.PressureDisplay;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;

/**
 * A run as one page that needs nothing else: no network, no script. At most {@value #BYTES_MAX} bytes; where the charts
 * of a long run would take more, those that say least are left out, and the page says so.
 *
 * @param display unit of pressures
 */
public record HtmlReport(PressureDisplay display) {
    static final int BYTES_MAX = 5_000_000;

    /** The whole page, ending in a line feed. */
    public String of(List<RunRecord> records) {
        if (records.isEmpty()) {
            throw new IllegalArgumentException("a report needs at least one record");
        }
        List<RunView> views = records.stream().map(RunView::new).toList();
        ChartChoice choice = ChartChoice.within(BYTES_MAX, views, display);
        Markup page = new Markup();
        page.raw("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>");
        page.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>");
        page.element("title", title(records)).raw("<style>").raw(style()).raw("</style></head><body>\n");
        page.raw(Shape.definitions()).raw(Gauge.HATCH);
        page.raw("<main>").add(new Certificate(records).draw());
        for (int i = 0; i < views.size(); i++) {
            RunView view = views.get(i);
            page.add(new SequenceSection(view, display, i + 1)
                    .draw(choice.overviews().get(i), choice.closeUps().get(i)));
        }
        return page.raw("</main>")
                .add(end(records, choice))
                .raw("</body></html>\n")
                .toString();
    }

    private static String title(List<RunRecord> records) {
        Verdict verdict =
                Verdict.greatest(records.stream().map(RunRecord::verdict).toList());
        return verdict.text() + ": " + records.get(0).summary().unit();
    }

    private static Markup end(List<RunRecord> records, ChartChoice choice) {
        Markup end = new Markup().open("footer");
        if (!choice.remark().isEmpty()) {
            end.element("p", choice.remark());
        }
        if (records.get(0).summary().run().simulated()) {
            end.element("p", Cautions.SIMULATED);
        }
        end.element(
                "p",
                "End of the report on " + records.get(0).summary().run().id() + " and the "
                        + (records.size() - 1)
                        + " records after it. It was made from these records alone; whoever has them"
                        + " can judge them again.");
        return end.close("footer").line();
    }

    private static String style() {
        try (InputStream css = HtmlReport.class.getResourceAsStream("report.css")) {
            if (css == null) {
                throw new IllegalStateException("report.css is missing beside the classes");
            }
            return new String(css.readAllBytes(), UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
