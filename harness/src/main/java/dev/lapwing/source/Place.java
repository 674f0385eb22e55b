package dev.lapwing.source;

/**
 * Where a thing stands in a file.
 *
 * @param file   the file as the user named it
 * @param line   from 1
 * @param column from 1
 */
public record Place(String file, int line, int column) {
    /** {@code file:line:column}. */
    @Override
    public String toString() {
        return file + ":" + line + ":" + column;
    }
}
