/**
 * The simulated units under test: two brake controllers of an invented multiple unit, as readable state machines
 * stepped by a clock that comes in as an argument. Start reading at {@link dev.lapwing.unit.ControllerUnderTest}.
 *
 * <p>They know the wiring and the drawn figures of their simulation, never what they are held against. A unit
 * computed here states nothing about any real one.
 */
@NullMarked
package dev.lapwing.unit;

import org.jspecify.annotations.NullMarked;
