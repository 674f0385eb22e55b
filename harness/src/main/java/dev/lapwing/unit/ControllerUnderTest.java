package dev.lapwing.unit;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import java.util.Map;
import java.util.Set;
import java.util.random.RandomGenerator;

/** A simulated brake controller: senses, and drives the brake valve and its wires, once in every step of the plant. */
public interface ControllerUnderTest {

    /**
     * One step. Allocates nothing unless an output changes. Not safe for use by several threads.
     *
     * @param nowSeconds time since the start, in s, which never goes back
     * @param stepSeconds time since the step before, in s, above zero
     * @param in         what is sensed now
     * @param out        what is driven from now on
     */
    void step(double nowSeconds, double stepSeconds, UnitInputs in, UnitOutputs out);

    /**
     * A controller, its supplies off until now.
     *
     * @param wiring  its handle, notches, nominal voltage and design
     * @param drawn   a value in the base unit for every one of {@link #figures}; others are not read
     * @param random  source of the noise of its sensors
     * @throws IllegalArgumentException if a figure is missing, the handle lacks a position or an arc, or there are more
     *     notches than wires
     */
    static ControllerUnderTest of(
            ControllerKind kind, Wiring wiring, Map<SimulationFigure, Double> drawn, RandomGenerator random) {
        return switch (kind) {
            case CLASSIC -> new ClassicController(wiring, new UnitFigures(drawn));
            case RETROFIT -> new RetrofitController(wiring, new UnitFigures(drawn), random);
        };
    }

    /** The figures that a controller of that kind reads; beside its own it needs the pressure that the cab feeds to. */
    static Set<SimulationFigure> figures(ControllerKind kind) {
        return switch (kind) {
            case CLASSIC -> UnitFigures.CLASSIC;
            case RETROFIT -> UnitFigures.RETROFIT;
        };
    }
}
