package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.Simulation.Spread;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.SimulationFigure.Scope;
import dev.lapwing.uncertainty.Streams;
import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * One healthy train and unit of all those that the simulation block allows: every figure drawn between nominal − half
 * width and nominal + half width, each value as likely, and not beyond its sane range.
 */
final class DrawnFigures {
    private final Map<SimulationFigure, double[]> drawn = new EnumMap<>(SimulationFigure.class);

    DrawnFigures(Simulation simulation, int vehicles, Streams streams) {
        simulation.figures().forEach((figure, spread) -> {
            SplittableRandom random = streams.of("figure/" + figure.path());
            double[] values = new double[figure.scope() == Scope.VEHICLE ? vehicles : 1];
            for (int i = 0; i < values.length; i++) {
                values[i] = within(figure, spread, random.nextDouble());
            }
            drawn.put(figure, values);
        });
    }

    private static double within(SimulationFigure figure, Spread spread, double share) {
        double value = spread.nominal() + spread.halfWidth() * (2 * share - 1);
        return Math.max(figure.least(), Math.min(figure.most(), value));
    }

    /** The figure of train or unit, base unit. */
    double of(SimulationFigure figure) throws BenchFailure {
        return values(figure)[0];
    }

    /** The figure of a vehicle, numbered from 0, base unit. */
    double of(SimulationFigure figure, int vehicle) throws BenchFailure {
        double[] values = values(figure);
        return values[Math.min(vehicle, values.length - 1)];
    }

    /** Every figure of the unit under test that the simulation block has. */
    Map<SimulationFigure, Double> unit() {
        Map<SimulationFigure, Double> unit = new EnumMap<>(SimulationFigure.class);
        drawn.forEach((figure, values) -> {
            if (figure.scope() == Scope.UNIT) {
                unit.put(figure, values[0]);
            }
        });
        return unit;
    }

    private double[] values(SimulationFigure figure) throws BenchFailure {
        double[] values = drawn.get(figure);
        if (values == null) {
            throw new BenchFailure(
                    "the fixture's simulation block lacks '" + figure.path() + "' (" + figure.description() + ")");
        }
        return values;
    }
}
