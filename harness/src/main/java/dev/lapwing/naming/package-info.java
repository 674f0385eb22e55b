/**
 * Names shared by all: what a bench reads ({@link dev.lapwing.naming.Signal}), what it drives
 * ({@link dev.lapwing.naming.Actuator}).
 */
package dev.lapwing.naming;
