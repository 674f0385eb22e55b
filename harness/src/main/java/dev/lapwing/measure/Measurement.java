package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;

/** What came of measuring the quantity that an expectation asks for. */
public sealed interface Measurement {

    /** What was measured, or asked for, in words: {@code time to rise above 45 psi}. */
    String quantity();

    /** Points to draw into the traces. */
    List<Mark> marks();

    /** The stretch of bench time that was looked at. */
    Window window();

    /** It has a value. */
    record Measured(Estimate estimate, String quantity, List<Mark> marks, Window window) implements Measurement {}

    /**
     * What was waited for did not happen although it was watched to the end with a good bench.
     *
     * @param instead  what was seen instead, a clause with figures
     * @param reached  how far it got, in the signal's unit, where that is a level
     * @param shortBy  how far {@code reached} stayed from what was waited for, same unit; 0 if there is no level
     */
    record NeverHappened(
            String instead,
            Optional<Estimate> reached,
            double shortBy,
            String quantity,
            List<Mark> marks,
            Window window)
            implements Measurement {}

    /**
     * It could not be measured; no fault of the unit is claimed.
     *
     * @param reason why, a clause
     * @param mend   what would mend it, a clause
     */
    record NotMeasurable(String reason, String mend, String quantity, List<Mark> marks, Window window)
            implements Measurement {}
}
