package dev.lapwing.cli;

import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.report.TerminalReport;
import picocli.CommandLine.Option;

/** How the user wants to read results. */
final class Reading {
    private static final int COLUMNS_DEFAULT = 100;

    @Option(
            names = "--pressures",
            defaultValue = "psi",
            paramLabel = "UNIT",
            description = "Unit in which pressures are shown: psi, bar or kPa; ${DEFAULT-VALUE} by default.")
    private PressureDisplay pressures;

    @Option(names = "--plain", description = "No colour, no signs beyond ASCII, no moving line: for logs.")
    private boolean plain;

    PressureDisplay pressures() {
        return pressures;
    }

    /** True where a person watches a terminal that can move its cursor. */
    boolean moving() {
        return !plain && System.console() != null;
    }

    /** True if so many lines can be written over themselves; a height that is not known is taken to do. */
    boolean fits(int lines) {
        String said = System.getenv("LINES");
        return said == null || !said.matches("[1-9]\\d{0,3}") || lines < Integer.parseInt(said);
    }

    TerminalReport report() {
        return new TerminalReport(pressures, columns(), style());
    }

    private TerminalReport.Style style() {
        if (plain) {
            return TerminalReport.Style.PLAIN;
        }
        boolean colour = moving() && System.getenv("NO_COLOR") == null;
        return colour ? TerminalReport.Style.COLOUR : TerminalReport.Style.MONO;
    }

    private static int columns() {
        String said = System.getenv("COLUMNS");
        return said != null && said.matches("\\d{2,3}") ? Integer.parseInt(said) : COLUMNS_DEFAULT;
    }
}
