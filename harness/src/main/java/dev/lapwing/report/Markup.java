package dev.lapwing.report;

/** HTML and SVG in the making. Whatever is text or the value of an attribute is escaped here and nowhere else. */
final class Markup {
    private final StringBuilder out = new StringBuilder();

    /** Markup that was made here, as it is. */
    Markup raw(String markup) {
        out.append(markup);
        return this;
    }

    Markup add(Markup other) {
        out.append(other.out);
        return this;
    }

    Markup text(String text) {
        escape(text);
        return this;
    }

    /** An opening tag; attributes come in pairs of name and value. */
    Markup open(String tag, String... attributes) {
        return tag(tag, ">", attributes);
    }

    /** A tag without content. */
    Markup empty(String tag, String... attributes) {
        return tag(tag, "/>", attributes);
    }

    Markup close(String tag) {
        out.append("</").append(tag).append('>');
        return this;
    }

    /** A whole element with text in it. */
    Markup element(String tag, String text, String... attributes) {
        return open(tag, attributes).text(text).close(tag);
    }

    Markup line() {
        out.append('\n');
        return this;
    }

    int length() {
        return out.length();
    }

    @Override
    public String toString() {
        return out.toString();
    }

    private Markup tag(String tag, String end, String... attributes) {
        out.append('<').append(tag);
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            escape(attributes[i + 1]);
            out.append('"');
        }
        out.append(end);
        return this;
    }

    private void escape(String text) {
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                default -> out.appendCodePoint(legal(c) ? c : '\uFFFD');
            }
        });
    }

    /** XML 1.0 has no way to write most control characters. */
    private static boolean legal(int c) {
        return c == '\n' || c == '\t' || c >= 0x20 && c <= 0xD7FF || c >= 0xE000 && c != 0xFFFE && c != 0xFFFF;
    }

    /** A place on paper, to a tenth of a pixel. */
    static String px(double place) {
        return tenths(Math.round(place * 10));
    }

    /** Tenths as a decimal, in as few letters as it can be. */
    static String tenths(long tenths) {
        if (tenths % 10 == 0) {
            return Long.toString(tenths / 10);
        }
        long whole = Math.abs(tenths) / 10;
        return (tenths < 0 ? "-" : "") + (whole == 0 ? "" : whole) + "." + Math.abs(tenths) % 10;
    }
}
