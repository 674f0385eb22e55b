/**
 * The bench link over an MQTT 5 broker: {@link dev.lapwing.transport.mqtt.MqttBench} reaches a bench,
 * {@link dev.lapwing.transport.mqtt.ServedTopics} serves one. The only package that knows the MQTT library.
 */
@NullMarked
package dev.lapwing.transport.mqtt;

import org.jspecify.annotations.NullMarked;
