package dev.lapwing.unit;

import dev.lapwing.fixture.Wiring;

/** The classic five-position controller with EP contactors. */
final class ClassicController implements ControllerUnderTest {
    ClassicController(Wiring wiring, UnitFigures figures) {}

    @Override
    public void step(double nowSeconds, double stepSeconds, UnitInputs in, UnitOutputs out) {}
}
