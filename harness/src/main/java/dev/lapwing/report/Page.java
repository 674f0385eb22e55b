package dev.lapwing.report;

import dev.lapwing.finding.Verdict;

/** Lines of text of a width, in the making. */
final class Page {
    private static final String ESCAPE = "\u001b[";

    private final int columns;
    private final TerminalReport.Style style;
    private final StringBuilder out = new StringBuilder();

    Page(int columns, TerminalReport.Style style) {
        this.columns = columns;
        this.style = style;
    }

    String text() {
        return out.toString();
    }

    void blank() {
        out.append('\n');
    }

    void rule() {
        out.append((style == TerminalReport.Style.PLAIN ? "-" : "─").repeat(columns))
                .append('\n');
    }

    /** Text that goes on a line at that column, broken between words. */
    void follow(int column, String text) {
        int start = out.length();
        wrapped(" ".repeat(column), "    ", text);
        // What stands on the line already takes the place of the indent.
        out.delete(start, start + column - 2);
    }

    /** Text broken between words; the first line after {@code first}, the others after {@code next}. */
    void wrapped(String first, String next, String text) {
        String indent = first;
        StringBuilder line = new StringBuilder();
        for (String piece : Unbroken.of(signs(text)).split(" +")) {
            String word = piece.replace(Unbroken.SPACE, ' ');
            if (line.length() > 0 && indent.length() + line.length() + 1 + word.length() > columns) {
                out.append(indent).append(line).append('\n');
                indent = next;
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        out.append(indent).append(line).append('\n');
    }

    /** One text at the left end and, coloured by the verdict, one at the right; on two lines if they do not fit. */
    void spread(String left, String right, Verdict verdict) {
        String text = signs(left);
        if (text.length() + 2 + right.length() > columns) {
            wrapped("", "  ", text);
            text = "";
        }
        out.append(text).append(" ".repeat(Math.max(0, columns - text.length() - right.length())));
        verdict(right, verdict);
        out.append('\n');
    }

    /** A word coloured by the verdict; the line goes on. */
    void verdict(String word, Verdict verdict) {
        if (style != TerminalReport.Style.COLOUR) {
            out.append(signs(word));
            return;
        }
        String colour = switch (verdict) {
            case NONE -> "2";
            case PASS -> "32";
            case INCONCLUSIVE -> "33";
            case FAIL -> "1;31";
            case ERROR -> "1;35";
        };
        out.append(ESCAPE)
                .append(colour)
                .append('m')
                .append(word)
                .append(ESCAPE)
                .append("0m");
    }

    /** Text that ends the line. */
    void rest(String text) {
        out.append(signs(text).stripTrailing()).append('\n');
    }

    /** The text with signs that the reader's terminal can show. */
    String signs(String text) {
        return style == TerminalReport.Style.PLAIN
                ? text.replace("±", "+-")
                        .replace("≤", "<=")
                        .replace("≥", ">=")
                        .replace("³", "3")
                        .replace("−", "-")
                        .replace("–", "-")
                        .replace("…", "...")
                : text;
    }
}
