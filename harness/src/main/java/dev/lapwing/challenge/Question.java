package dev.lapwing.challenge;

import dev.lapwing.plan.Check;

/**
 * A quantity that the study measures.
 *
 * @param scene    name of the part of the study that it belongs to
 * @param stamped  true where benches look at it that stamp at the source
 * @param name     as the table has it
 * @param stimulus name of the stimulus that its times count from
 * @param kind     what is asked of it
 * @param check    how it is measured
 */
public record Question(String scene, boolean stamped, String name, String stimulus, Kind kind, Check check) {

    /** The same question to benches that do not stamp, in that part of the study. */
    Question unstamped(String other) {
        return new Question(other, false, name, stimulus, kind, check);
    }

    /** Kinds of quantities. */
    public enum Kind {
        /** A value with an interval that is to hold the truth. */
        VALUE,
        /** A number of times: to be right, or within its stated doubt. */
        COUNT,
        /** Which of two came first: to be right wherever it is claimed. */
        ORDER
    }
}
