package dev.lapwing.cli;

/** Small turns of phrase. */
final class Words {
    private Words() {}

    /** {@code 1 file}, {@code 2 files}. */
    static String count(long number, String noun) {
        return number + " " + noun + (number == 1 ? "" : "s");
    }
}
