package dev.lapwing.link.bench;

import dev.lapwing.link.Refusal;

/** A command that fails a check: nothing has been changed by it. */
final class Refusing extends Exception {
    private static final long serialVersionUID = 1;

    /** As it stands in the answer. */
    private final String why;

    Refusing(Refusal word) {
        this(word, "");
    }

    Refusing(Refusal word, String what) {
        super(word.word(), null, false, false);
        this.why = word.because(what);
    }

    String why() {
        return why;
    }
}
