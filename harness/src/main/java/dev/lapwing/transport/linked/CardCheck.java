package dev.lapwing.transport.linked;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Point;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Wire;

/** Whether the bench that answers is the one that its file describes: what is measured rests on the file's figures. */
final class CardCheck {
    private CardCheck() {}

    /** @throws BenchFailure that names the first point or figure in which they differ */
    static void of(BenchFile file, BenchCard card) throws BenchFailure {
        String bench = "bench '" + card.name() + "'";
        require(
                card.maxBeatMs() <= Wire.BEAT_MS_MAX || card.computed(),
                bench + " stays live for up to " + card.maxBeatMs() + " ms without a heartbeat; at most "
                        + Wire.BEAT_MS_MAX + " ms are allowed");
        double ppm = file.clockRateBound() * 1e6;
        require(
                card.clockPpm() <= ppm + 1e-6,
                bench + " states a clock within " + card.clockPpm() + " ppm; " + file.file() + " claims " + ppm
                        + " ppm");
        for (Point point : file.points()) {
            LinkPoint there = card.point(point.name())
                    .orElseThrow(() -> new BenchFailure(
                            bench + " has no point '" + point.name() + "', which " + file.file() + " names"));
            String both = bench + ", point '" + point.name() + "': ";
            require(
                    there.kind() == point.kind(),
                    both + "it is of kind " + there.kind().text() + "; " + file.file() + " says "
                            + point.kind().text());
            require(
                    there.min() == point.min() && there.max() == point.max() && there.safe() == point.safe(),
                    both + "counts from " + there.min() + " to " + there.max() + ", safe at " + there.safe() + "; "
                            + file.file() + " says " + point.min() + " to " + point.max() + ", safe at "
                            + point.safe());
            stamps(file, point, there, both);
        }
    }

    private static void stamps(BenchFile file, Point point, LinkPoint there, String both) throws BenchFailure {
        require(
                said(there.stampUs()) <= point.stampUs() || point.kind().output(),
                both + "stamps are good to " + there.stampUs() + " us; " + file.file() + " claims " + point.stampUs()
                        + " us");
        require(
                said(there.filterUs()) == point.filterUs() || there.filterUs() == LinkPoint.UNSAID,
                both + "stamps hold a delay of " + there.filterUs() + " us; " + file.file() + " says "
                        + point.filterUs() + " us");
        require(
                said(there.glitchUs()) <= point.glitchUs()
                        || !point.kind().digital()
                        || point.kind().output(),
                both + "pulses below " + there.glitchUs() + " us are not sent; " + file.file() + " says "
                        + point.glitchUs() + " us");
    }

    private static int said(int figure) {
        return Math.max(0, figure);
    }

    private static void require(boolean good, String otherwise) throws BenchFailure {
        if (!good) {
            throw new BenchFailure(otherwise + "; put right the file, or the cable");
        }
    }
}
