package dev.lapwing.plan;

/**
 * A resolved expectation.
 *
 * @param id       unique in the sequence and stable, see {@code Finding}
 * @param sentence as a person reads it
 * @param place    where it stands, {@code file:line:column}
 * @param check    what is measured and what it is held against
 */
public record PlannedExpectation(String id, String sentence, String place, Check check) {}
