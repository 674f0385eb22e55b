package dev.lapwing.measure;

import dev.lapwing.uncertainty.Instrument;

/** What is claimed of single readings of a channel. */
final class Channels {
    private Channels() {}

    /** What all readings of that channel may have wrong alike, expanded (k = 2), base unit: calibration and drift. */
    static double expanded(Instrument instrument) {
        double calibration = instrument.calibration();
        double drift = instrument.drift();
        return 2 * Math.sqrt(calibration * calibration + drift * drift);
    }
}
