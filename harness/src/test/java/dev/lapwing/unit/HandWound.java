package dev.lapwing.unit;

import java.util.function.BooleanSupplier;

/** A controller with its inputs in the test's hands, stepped by a clock that the test winds. */
final class HandWound {
    static final double STEP_SECONDS = 0.001;

    final UnitInputs in = new UnitInputs();
    final UnitOutputs out = new UnitOutputs();
    private final ControllerUnderTest unit;
    private final Runnable before;
    private final Runnable after;
    private long steps;

    HandWound(ControllerUnderTest unit) {
        this(unit, () -> {}, () -> {});
    }

    /**
     * With surroundings.
     *
     * @param before what they do to its inputs before each step
     * @param after  what its outputs do to them after it
     */
    HandWound(ControllerUnderTest unit, Runnable before, Runnable after) {
        this.unit = unit;
        this.before = before;
        this.after = after;
    }

    double seconds() {
        return steps * STEP_SECONDS;
    }

    HandWound step() {
        steps++;
        before.run();
        unit.step(seconds(), STEP_SECONDS, in, out);
        after.run();
        return this;
    }

    HandWound run(double seconds) {
        long until = steps + Math.round(seconds / STEP_SECONDS);
        while (steps < until) {
            step();
        }
        return this;
    }

    /** Seconds until the condition holds after a step; NaN where it does not within the limit. */
    double until(double limitSeconds, BooleanSupplier condition) {
        long from = steps;
        long last = steps + Math.round(limitSeconds / STEP_SECONDS);
        while (steps < last) {
            step();
            if (condition.getAsBoolean()) {
                return (steps - from) * STEP_SECONDS;
            }
        }
        return Double.NaN;
    }

    boolean on(UnitWire wire) {
        return out.isOn(wire);
    }

    /** Supplies on, pipe charged, long enough for electronics to start; everything else as it is. */
    HandWound supplied() {
        in.controlSupplyVolts = TestUnits.UN;
        in.epSupplyVolts = TestUnits.UN;
        in.brakePipePascals = 70 * TestUnits.PSI;
        in.mainReservoirPascals = 90 * TestUnits.PSI;
        return run(4);
    }

    /** An open cab in the right order: charged, deadman held, a direction selected, standing. */
    HandWound ready() {
        supplied();
        in.masterOn = true;
        run(0.1);
        in.deadmanHeld = true;
        run(0.1);
        in.reverserForward = true;
        return run(0.2);
    }

    /** The same, running with power on. */
    HandWound driving(int notch) {
        ready();
        in.speedMetresPerSecond = 10;
        in.powerNotch = notch;
        return run(0.2);
    }

    HandWound handle(double degrees) {
        in.handleDegrees = degrees;
        return this;
    }

    boolean feeds() {
        return out.valve().feedShare() > 0;
    }

    boolean dumps() {
        return out.valve().dumpShare() > 0;
    }

    boolean emergency() {
        return out.valve().emergencyShare() > 0;
    }
}
