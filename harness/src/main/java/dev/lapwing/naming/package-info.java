/**
 * Names shared by all: what a bench reads ({@link dev.lapwing.naming.Signal}), what it drives
 * ({@link dev.lapwing.naming.Actuator}), what a unit has and how it is designed.
 */
@NullMarked
package dev.lapwing.naming;

import org.jspecify.annotations.NullMarked;
