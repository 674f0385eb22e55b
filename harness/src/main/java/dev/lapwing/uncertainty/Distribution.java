package dev.lapwing.uncertainty;

/** What is assumed of how a source's error is spread. */
public enum Distribution {
    NORMAL("normal"),
    /** Known to lie within bounds, each value as likely (JCGM 100:2008, 4.3.7). */
    RECTANGULAR("rectangular"),
    /** Student's t, where the spread itself was told from few observations (JCGM 101:2008, 6.4.9). */
    STUDENT("Student's t");

    private final String text;

    Distribution(String text) {
        this.text = text;
    }

    public String text() {
        return text;
    }
}
