package dev.lapwing.plan;

import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Law;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.util.OptionalDouble;

/** Where the plan has commanded the handle to, as it goes on. */
final class HandlePlace {

    private static final double NEAR_DEGREES = 1e-6;

    private final Handle handle;
    private final Mistakes mistakes;
    private OptionalDouble degrees = OptionalDouble.empty();
    private String how = "";

    HandlePlace(Handle handle, Mistakes mistakes) {
        this.handle = handle;
        this.mistakes = mistakes;
    }

    /** The handle is commanded there from here on. */
    void moved(double toDegrees, String text) {
        degrees = OptionalDouble.of(toDegrees);
        how = text;
    }

    /** The angle in degrees that it is commanded to; empty before the first command. */
    OptionalDouble degrees() {
        return degrees;
    }

    /** The law's gauge pressure in Pa for the handle's place; NaN after a mistake. */
    double target(Law law, Place place) {
        Handle.Arc arc = handle.arcs().get(law.arc());
        if (arc == null) {
            mistakes.add(
                    law.place(),
                    "law '" + law.name() + "' is over arc '" + law.arc() + "', which the handle has not",
                    "one of "
                            + String.join(
                                    ", ",
                                    handle.arcs().keySet().stream().sorted().toList()),
                    "");
            return Double.NaN;
        }
        if (degrees.isEmpty()) {
            mistakes.add(
                    place,
                    "the law '" + law.name() + "' is asked before the handle was moved",
                    "a handle step along '" + law.arc() + "' before this",
                    "");
            return Double.NaN;
        }
        double from = handle.positions().get(arc.from());
        double to = handle.positions().get(arc.to());
        double at = degrees.getAsDouble();
        if (at < Math.min(from, to) - NEAR_DEGREES || at > Math.max(from, to) + NEAR_DEGREES) {
            mistakes.add(
                    place,
                    "the law '" + law.name() + "' is over '" + law.arc() + "', and the last handle step before this ("
                            + how + ") leaves that arc",
                    "a handle step along '" + law.arc() + "' before this",
                    "");
            return Double.NaN;
        }
        return law.at(handle.share(law.arc(), at).orElseThrow());
    }
}
