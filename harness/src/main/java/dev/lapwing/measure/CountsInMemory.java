package dev.lapwing.measure;

import dev.lapwing.bench.SampleBlock;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Keeps every count, 4 bytes each, since a run holds millions. */
final class CountsInMemory implements CountStore {
    private final Map<String, List<Column>> streams = new HashMap<>();

    @Override
    public int add(SampleBlock block) {
        List<Column> columns = columns(block);
        int first = columns.isEmpty() ? 0 : columns.get(0).size;
        for (int column = 0; column < columns.size(); column++) {
            columns.get(column).add(block.counts(), column, columns.size(), block.rows());
        }
        return first;
    }

    private List<Column> columns(SampleBlock block) {
        return streams.computeIfAbsent(
                block.stream().name(),
                name -> Stream.generate(Column::new)
                        .limit(block.stream().points().size())
                        .toList());
    }

    @Override
    public Counts counts(String stream, int column) {
        return streams.get(stream).get(column);
    }

    private static final class Column implements Counts {
        private int[] counts = new int[1024];
        private int size;

        void add(int[] table, int column, int columns, int rows) {
            if (size + rows > counts.length) {
                counts = Arrays.copyOf(counts, Math.max(size + rows, size * 2));
            }
            for (int row = 0; row < rows; row++) {
                counts[size++] = table[row * columns + column];
            }
        }

        @Override
        public int at(int row) {
            return counts[row];
        }

        @Override
        public void read(int row, int count, int[] into) {
            System.arraycopy(counts, row, into, 0, count);
        }

        @Override
        public Extent extent(int from, int to) {
            return new RunningExtent().next(counts, from, to, 1);
        }
    }
}
