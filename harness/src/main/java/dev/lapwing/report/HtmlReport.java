package dev.lapwing.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.quantity.PressureDisplay;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A run as one page that needs nothing else: no network, no script. At most {@value #BYTES_MAX} bytes: where a run
 * holds more, the charts that say least are left out first, then budgets and lists, and the page says so. What did not
 * pass is never left out.
 *
 * @param display unit of pressures
 */
public record HtmlReport(PressureDisplay display) {
    static final int BYTES_MAX = 5_000_000;

    /** Room for what is said of things left out, in bytes. */
    private static final int REMARKS = 1_000;

    /** The whole page, ending in a line feed. */
    public String of(WholeRun whole) {
        WholeRun run = RetoldPressures.of(whole, display);
        if (run.records().isEmpty()) {
            throw new IllegalArgumentException("a report needs at least one record");
        }
        List<RunView> views = run.records().stream()
                .map(record -> new RunView(record, display))
                .toList();
        Detail[] details = Detail.values();
        int level = 0;
        long text = size(page(run, views, details[level], ChartChoice.none(views.size())));
        while (text > BYTES_MAX - REMARKS && level < details.length - 1) {
            level++;
            text = size(page(run, views, details[level], ChartChoice.none(views.size())));
        }
        return page(run, views, details[level], ChartChoice.within(BYTES_MAX - REMARKS - text, views));
    }

    private static long size(String page) {
        return page.getBytes(UTF_8).length;
    }

    private String page(WholeRun run, List<RunView> views, Detail detail, ChartChoice charts) {
        Markup page = new Markup();
        page.raw("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>");
        page.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>");
        page.element("title", title(run)).raw("<style>").raw(style()).raw("</style></head><body>\n");
        page.raw(Shape.definitions()).raw(Gauge.HATCH);
        page.raw("<main>").add(new Certificate(run).draw());
        for (int i = 0; i < views.size(); i++) {
            page.add(new SequenceSection(views.get(i), i + 1, detail)
                    .draw(charts.overviews().get(i), charts.closeUps().get(i)));
        }
        return page.raw("</main>")
                .add(end(run.records(), detail, charts))
                .raw("</body></html>\n")
                .toString();
    }

    private static String title(WholeRun run) {
        return run.verdict().text() + ": " + run.records().get(0).summary().unit();
    }

    private static Markup end(List<RunRecord> records, Detail detail, ChartChoice charts) {
        Markup end = new Markup().open("footer");
        String left = Stream.of(detail.leftOut(), charts.left())
                .filter(text -> !text.isEmpty())
                .collect(Collectors.joining(" and "));
        if (!left.isEmpty()) {
            end.element("p", "To keep this page small, " + left + " were left out; the records hold everything.");
        }
        if (records.get(0).summary().run().simulated()) {
            end.element("p", Cautions.SIMULATED);
        }
        String others =
                records.size() == 1 ? "" : " and " + Sentences.count(records.size() - 1, "record") + " after it";
        end.element(
                "p",
                "End of the report on record " + records.get(0).summary().run().id() + others
                        + ". It was made from the records alone; whoever has them can judge them again.");
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
