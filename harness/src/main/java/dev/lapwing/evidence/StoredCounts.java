package dev.lapwing.evidence;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.measure.CountStore;
import dev.lapwing.measure.Counts;
import dev.lapwing.measure.Counts.Extent;
import dev.lapwing.measure.RunningExtent;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The counts of a stored log, where they are: of each stream its places in the log, some thousand rows apart, from
 * which a column can be unpacked again. So a record of any length is judged in little memory. For one thread.
 */
final class StoredCounts implements CountStore {
    /** A page is unpacked as a whole; it ends with the frame that fills it. */
    private static final int PAGE_ROWS = 2048;
    /** A mean that runs along needs the page of its newest sample and that of its oldest; two more for good measure. */
    private static final int PAGES_KEPT = 4;

    private final LogBytes log;
    private final Map<String, Stored> streams = new HashMap<>();
    private final PackedColumn packed = new PackedColumn();

    StoredCounts(LogBytes log) {
        this.log = log;
    }

    /** Told before a frame's samples are: where it is, and what its counts differ from. */
    void frame(int number, StreamUnpacker stream, long at) {
        streams.computeIfAbsent(stream.name(), name -> new Stored(number, stream.width()))
                .frame(at, stream);
    }

    @Override
    public int add(SampleBlock block) {
        return streams.get(block.stream().name()).add(block);
    }

    @Override
    public Counts counts(String stream, int column) {
        return streams.get(stream).columns.get(column);
    }

    /**
     * Some thousand rows of a stream.
     *
     * @param at       of its first frame
     * @param firstRow number of its first row
     * @param before   what the first counts differ from, by column
     * @param extents  by column; a row that began in the page before counts as a whole
     */
    private record Page(long at, int firstRow, int[] before, Extent[] extents) {
        Page(long at, int firstRow, int[] before) {
            this(at, firstRow, before, new Extent[before.length]);
            Arrays.fill(extents, Extent.NONE);
        }
    }

    /** One stream of the log. */
    private final class Stored {
        private final int number;
        private final List<Column> columns = new ArrayList<>();
        private final List<Page> pages = new ArrayList<>();
        /** By column. */
        private final RunningExtent[] running;

        private int rows;

        Stored(int number, int width) {
            this.number = number;
            this.running = new RunningExtent[width];
            for (int column = 0; column < width; column++) {
                running[column] = new RunningExtent();
                columns.add(new Column(this, column));
            }
        }

        void frame(long at, StreamUnpacker stream) {
            if (pages.isEmpty() || rows - pages.get(pages.size() - 1).firstRow() >= PAGE_ROWS) {
                pages.add(new Page(at, rows, stream.last()));
            }
        }

        int add(SampleBlock block) {
            int first = rows;
            Extent[] extents = pages.get(pages.size() - 1).extents();
            int width = extents.length;
            for (int column = 0; column < width; column++) {
                extents[column] =
                        extents[column].and(running[column].next(block.counts(), column, block.rows() * width, width));
            }
            rows = Math.addExact(rows, block.rows());
            return first;
        }

        int page(int row) {
            int low = 0;
            int high = pages.size() - 1;
            while (low < high) {
                int middle = (low + high + 1) >>> 1;
                if (pages.get(middle).firstRow() <= row) {
                    low = middle;
                } else {
                    high = middle - 1;
                }
            }
            return low;
        }

        int end(int page) {
            return page + 1 < pages.size() ? pages.get(page + 1).firstRow() : rows;
        }

        /** Unpacks one column of a page. */
        void unpack(int page, int column, int[] into) {
            long at = pages.get(page).at();
            int value = pages.get(page).before()[column];
            int wanted = end(page) - pages.get(page).firstRow();
            int found = 0;
            while (found < wanted) {
                ByteBuffer head = log.at(at, FrameWriter.HEAD);
                int length = head.getInt();
                if (head.get() == FrameType.SAMPLES.code()) {
                    packed.take(log.at(at + FrameWriter.HEAD, length));
                    if (packed.stream() == number) {
                        value = packed.unpack(column, columns.size(), value, into, found);
                        found += packed.rows();
                    }
                }
                at += FrameWriter.HEAD + length + FrameWriter.TAIL;
            }
        }
    }

    /** One point of a stream; the pages that were looked at last are kept unpacked. */
    private static final class Column implements Counts {
        private final Stored stream;
        private final int column;
        private final int[][] unpacked = new int[PAGES_KEPT][];
        private final int[] firstRows = new int[PAGES_KEPT];
        private final int[] endRows = new int[PAGES_KEPT];
        private int oldest;
        private int newest;

        Column(Stored stream, int column) {
            this.stream = stream;
            this.column = column;
        }

        @Override
        public int at(int row) {
            if (row < firstRows[newest] || row >= endRows[newest]) {
                newest = kept(row);
            }
            return unpacked[newest][row - firstRows[newest]];
        }

        @Override
        public void read(int row, int count, int[] into) {
            int done = 0;
            while (done < count) {
                at(row + done);
                int part = Math.min(count - done, endRows[newest] - row - done);
                System.arraycopy(unpacked[newest], row + done - firstRows[newest], into, done, part);
                done += part;
            }
        }

        private int kept(int row) {
            for (int i = 0; i < PAGES_KEPT; i++) {
                if (row >= firstRows[i] && row < endRows[i]) {
                    return i;
                }
            }
            int place = oldest;
            oldest = (oldest + 1) % PAGES_KEPT;
            int page = stream.page(row);
            firstRows[place] = stream.pages.get(page).firstRow();
            endRows[place] = stream.end(page);
            int rows = endRows[place] - firstRows[place];
            if (unpacked[place] == null || unpacked[place].length < rows) {
                unpacked[place] = new int[rows];
            }
            stream.unpack(page, column, unpacked[place]);
            return place;
        }

        @Override
        public Extent extent(int from, int to) {
            Extent extent = Extent.NONE;
            for (int page = stream.page(from);
                    page < stream.pages.size() && stream.pages.get(page).firstRow() < to;
                    page++) {
                extent = extent.and(stream.pages.get(page).extents()[column]);
            }
            return extent;
        }
    }
}
