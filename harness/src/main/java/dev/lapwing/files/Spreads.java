package dev.lapwing.files;

import dev.lapwing.files.Node.Scalar;
import dev.lapwing.fixture.Simulation.Spread;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Place;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Reads a nominal value and the half width of its tolerance: {@code 45 ms ± 5 ms}, {@code 22 m ± 1 %}. A half width
 * in % is a share of the nominal value, unless the figure is itself a share: {@code 30 % ± 2 %} is 28 % to 32 %.
 */
final class Spreads {
    private static final Pattern PLUS_MINUS = Pattern.compile("±|\\+/?-");
    /** Rounding that a range forgives, as a share of its greater end. */
    private static final double ROUNDING = 1e-12;

    private final Reading reading;
    private final Figures figures;

    Spreads(Reading reading) {
        this.reading = reading;
        this.figures = new Figures(reading);
    }

    Optional<Spread> spread(Node node, SimulationFigure figure) {
        String expected = figure.dimension().example() + ", with its tolerance after ±";
        return reading.scalar(node, expected).flatMap(scalar -> spread(scalar, figure));
    }

    private Optional<Spread> spread(Scalar scalar, SimulationFigure figure) {
        String[] sides = PLUS_MINUS.split(scalar.text(), 2);
        Place place = scalar.place();
        Range range = new Range(figure.least(), figure.most());
        String first = sides[0].strip();
        Optional<Quantity> nominal = figures.parse(first, place, figure.dimension())
                .filter(quantity -> figures.checkRange(first, quantity, place, range));
        Optional<Double> halfWidth = sides.length == 1
                ? Optional.of(0.0)
                : halfWidth(
                        sides[1].strip(),
                        place,
                        figure,
                        nominal.map(Quantity::base).orElse(0.0));
        if (nominal.isEmpty() || halfWidth.isEmpty()) {
            return Optional.empty();
        }
        Spread spread = new Spread(nominal.get().base(), halfWidth.get());
        double rounding = ROUNDING * Math.max(Math.abs(figure.least()), Math.abs(figure.most()));
        Range wide = new Range(figure.least() - rounding, figure.most() + rounding);
        if (!wide.holds(spread.nominal() - spread.halfWidth()) || !wide.holds(spread.nominal() + spread.halfWidth())) {
            reading.mistake(
                    place,
                    Quoted.of(scalar.text()) + " reaches out of range",
                    figures.between(first, figure.dimension(), range),
                    "");
            return Optional.empty();
        }
        return Optional.of(spread);
    }

    private Optional<Double> halfWidth(String text, Place place, SimulationFigure figure, double nominal) {
        if (text.isEmpty()) {
            reading.mistake(place, "nothing stands after ±", figure.dimension().example(), "");
            return Optional.empty();
        }
        Optional<Quantity> written = figure.dimension() == Dimension.RATIO
                ? figures.parse(text, place, Dimension.RATIO)
                : figures.parse(text, place, figure.dimension(), Dimension.RATIO);
        if (written.isPresent() && written.get().base() < 0) {
            reading.mistake(place, "the tolerance " + Quoted.of(text) + " is negative");
            return Optional.empty();
        }
        return written.map(
                half -> half.dimension() == figure.dimension() ? half.base() : half.base() * Math.abs(nominal));
    }
}
