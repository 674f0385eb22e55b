package dev.lapwing.files;

import dev.lapwing.bench.Tube;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import java.util.Optional;

/** Reads the delay of the tube between a tapping and its transducer. */
final class TubeReader {
    private static final String DELAY = "tube";
    private static final String BOUND = "tube-within";
    /** Longer is no tube to measure through. */
    private static final Range TIMES = new Range(0, 1);

    private final Reading reading;
    private final Figures figures;

    TubeReader(Reading reading) {
        this.reading = reading;
        this.figures = new Figures(reading);
    }

    /** Of an input; none where neither is written. */
    Tube read(Optional<Signal> signal, Form form) {
        if (!form.has(DELAY) && !form.has(BOUND)) {
            return Tube.NONE;
        }
        String present = form.has(DELAY) ? DELAY : BOUND;
        if (signal.isPresent() && signal.get().dimension() != Dimension.PRESSURE) {
            reading.mistake(
                    form.place(present),
                    "'" + present + "' stands with '" + signal.get().key() + "', which is no pressure",
                    "",
                    "leave it out: what the stamp may be off is the point's 'stamp'");
        } else if (!form.has(BOUND) || !form.has(DELAY)) {
            reading.mistake(
                    form.place(present),
                    "'" + present + "' stands without '" + (form.has(DELAY) ? BOUND : DELAY) + "'",
                    "both: by how much the tube delays, and by how much that may be off, such as 'tube: 3 ms,"
                            + " tube-within: 1 ms'",
                    "");
        }
        return new Tube(micros(form, DELAY), micros(form, BOUND));
    }

    private int micros(Form form, String key) {
        return form.value(key)
                .flatMap(node -> figures.figure(node, TIMES, Dimension.TIME))
                .map(time -> (int) Math.round(time.base() * 1e6))
                .orElse(0);
    }
}
