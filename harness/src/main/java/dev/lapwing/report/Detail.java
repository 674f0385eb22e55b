package dev.lapwing.report;

/** How much a page says, for runs so large that it cannot say everything. */
enum Detail {
    ALL(""),
    /** Passes without their limits' sources and budgets; no lists of commands. */
    PASSES_IN_BRIEF("the budgets of what passed, the lists of commands"),
    /** Passes are only counted; everything else is told by its figures. */
    FIGURES("what passed, all budgets, the lists of commands");

    private final String leftOut;

    Detail(String leftOut) {
        this.leftOut = leftOut;
    }

    /** In words; empty if nothing is. */
    String leftOut() {
        return leftOut;
    }
}
