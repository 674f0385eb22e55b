package dev.lapwing.unit;

import dev.lapwing.fixture.Wiring;
import java.util.random.RandomGenerator;

/** The electronic controller for the same train. */
final class RetrofitController implements ControllerUnderTest {
    RetrofitController(Wiring wiring, UnitFigures figures, RandomGenerator random) {}

    @Override
    public void step(double nowSeconds, double stepSeconds, UnitInputs in, UnitOutputs out) {}
}
