package dev.lapwing.run;

import dev.lapwing.plan.Course;

/** Ends the steps of a run before their end. */
final class CutShort extends Exception {
    private static final long serialVersionUID = 1;

    private final transient Course.Trouble trouble;

    CutShort(Course.Trouble trouble) {
        super(trouble.why());
        this.trouble = trouble;
    }

    Course.Trouble trouble() {
        return trouble;
    }
}
