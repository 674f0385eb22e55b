/**
 * The bench link: what host and bench say to each other, and how it travels. {@link dev.lapwing.link.HostMessage} and
 * {@link dev.lapwing.link.BenchMessage} are the messages, {@link dev.lapwing.link.MessageWriter} and
 * {@link dev.lapwing.link.MessageReader} their text, {@link dev.lapwing.link.SerialDecoder},
 * {@link dev.lapwing.link.SerialEncoder} and {@link dev.lapwing.link.MqttMapping} their carriage. The bench's side is
 * in {@code link.bench}, the host's in {@code link.host}. Nothing here does input or output, reads a clock or starts a
 * thread: time comes in as an argument. The contract is {@code harness/docs/bench-link.md}; "the contract" in comments
 * means that page.
 */
@NullMarked
package dev.lapwing.link;

import org.jspecify.annotations.NullMarked;
