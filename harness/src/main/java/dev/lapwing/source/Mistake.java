package dev.lapwing.source;

/**
 * A mistake in a file, as the user reads it.
 *
 * @param place    where
 * @param found    what was found, with value and unit, in lower case
 * @param expected what was expected; may be empty where {@code found} says it all
 * @param hint     what to write instead; may be empty
 */
public record Mistake(Place place, String found, String expected, String hint) {
    /** One line: {@code place: found; expected …; hint}. */
    @Override
    public String toString() {
        StringBuilder line = new StringBuilder().append(place).append(": ").append(found);
        if (!expected.isEmpty()) {
            line.append("; expected ").append(expected);
        }
        if (!hint.isEmpty()) {
            line.append("; ").append(hint);
        }
        return line.toString();
    }
}
