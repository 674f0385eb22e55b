package dev.lapwing.uncertainty;

/** How a standard uncertainty was found (JCGM 100:2008, 2.3.2 and 2.3.3). */
public enum Evaluation {
    /** From the scatter of what was observed in this very run. */
    A,
    /** From anything else: a certificate, a data sheet, a bound, scatter that was known before. */
    B
}
