/**
 * The broker for a first try, from a library: the only package that knows that library. It is packed apart from
 * {@code lapwing.jar}, together with what it needs, and found as a service.
 */
@NullMarked
package dev.lapwing.transport.mqtt.broker;

import org.jspecify.annotations.NullMarked;
