package dev.lapwing.files;

/** Text of a file as a mistake shows it: on one line and not too long. */
final class Quoted {
    private static final int SHOWN_MAX = 60;

    private Quoted() {}

    /** {@code 'text'}. */
    static String of(String text) {
        return "'" + cut(text) + "'";
    }

    /** The text without line breaks, cut where it is long. */
    static String cut(String text) {
        String line = text.replaceAll("\\s", " ");
        if (line.length() <= SHOWN_MAX) {
            return line;
        }
        int end = Character.isHighSurrogate(line.charAt(SHOWN_MAX - 1)) ? SHOWN_MAX - 1 : SHOWN_MAX;
        return line.substring(0, end) + "…";
    }
}
