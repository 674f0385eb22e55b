package dev.lapwing.report;

import java.util.ArrayList;
import java.util.List;

/** Words beside points in a chart, none over another: numbers of one place are put together, words move up or down. */
final class Labels {
    private static final double LETTER = 6.1;
    private static final double HEIGHT = 12;

    private final List<Label> placed = new ArrayList<>();

    private record Label(double pointX, double pointY, String text, double left, double baseline) {
        double right() {
            return left + text.length() * LETTER;
        }

        boolean over(Label other) {
            return left < other.right() && other.left < right() && Math.abs(baseline - other.baseline) < HEIGHT;
        }

        boolean isNumber() {
            return text.matches("[0-9, ]+");
        }
    }

    /** Adds words for a point; they stand to its left in the right half of the chart. */
    void add(double x, double y, String text) {
        for (int i = 0; i < placed.size(); i++) {
            Label other = placed.get(i);
            boolean here = Math.abs(other.pointX - x) < 26 && Math.abs(other.pointY - y) < 26;
            if (here && other.isNumber() && text.matches("[0-9]+")) {
                if (!List.of(other.text.split(", ")).contains(text)) {
                    placed.set(i, at(other.pointX, other.pointY, other.text + ", " + text, other.baseline));
                }
                return;
            }
        }
        double above = y < 34 ? y + 16 : y - 7;
        Label label = at(x, y, text, above);
        for (int step = 1; step <= 12 && overAny(label); step++) {
            // In turn below and above, further each time.
            double shift = (step + 1) / 2 * HEIGHT * (step % 2 == 0 ? -1 : 1.6);
            label = at(x, y, text, Math.max(20, above + shift));
        }
        placed.add(label);
    }

    private boolean overAny(Label label) {
        return placed.stream().anyMatch(label::over);
    }

    private static Label at(double x, double y, String text, double baseline) {
        boolean toLeft = x > (Chart.LEFT + Chart.RIGHT) / 2;
        return new Label(x, y, text, toLeft ? x - 8 - text.length() * LETTER : x + 8, baseline);
    }

    void draw(Markup svg) {
        for (Label label : placed) {
            boolean toLeft = label.pointX > (Chart.LEFT + Chart.RIGHT) / 2;
            svg.element(
                    "text",
                    label.text,
                    "class",
                    toLeft ? "label e" : "label",
                    "x",
                    Markup.px(label.pointX + (toLeft ? -8 : 8)),
                    "y",
                    Markup.px(label.baseline));
        }
    }
}
