package dev.lapwing.link;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.Arrays;

/** A list of lists of integers, read without an object for each. */
final class IntRows {
    private int[] counts = new int[64];
    private int size;
    private int rows;
    private int width;
    private boolean table = true;

    private IntRows() {}

    /** Reads on from the list's beginning to its end, whatever is in it. */
    static IntRows read(JsonParser parser) throws IOException {
        IntRows read = new IntRows();
        for (JsonToken token = parser.nextToken(); token != JsonToken.END_ARRAY; token = parser.nextToken()) {
            if (token == null) {
                throw new UnreadableMessage("a list without end");
            }
            if (token == JsonToken.START_ARRAY) {
                read.row(parser);
            } else {
                read.table = false;
                parser.skipChildren();
            }
        }
        return read;
    }

    /** Whether it was nothing but rows of that many integers. */
    boolean isTable(int wanted) {
        return table && (rows == 0 || width == wanted);
    }

    int[] counts() {
        return Arrays.copyOf(counts, size);
    }

    private void row(JsonParser parser) throws IOException {
        int from = size;
        for (JsonToken token = parser.nextToken(); token != JsonToken.END_ARRAY; token = parser.nextToken()) {
            if (token == null) {
                throw new UnreadableMessage("a list without end");
            }
            if (token == JsonToken.VALUE_NUMBER_INT && parser.getNumberType() == JsonParser.NumberType.INT) {
                add(parser.getIntValue());
            } else {
                table = false;
                parser.skipChildren();
            }
        }
        width = rows == 0 ? size - from : width;
        table &= width == size - from;
        rows++;
    }

    private void add(int count) {
        if (size == counts.length) {
            counts = Arrays.copyOf(counts, 2 * size);
        }
        counts[size++] = count;
    }
}
