package dev.lapwing.link;

import java.util.Arrays;
import java.util.Optional;

/**
 * Finds messages in the bytes of a serial line, however they are cut. Every line feed is tried as the end of a line,
 * every zero as the end of a dense message; bytes are bad only when neither reading fits. Memory is bounded by the two
 * longest messages. For one thread.
 */
public final class SerialDecoder {
    private static final int CRC_DIGITS = 8;
    /** A space and the CRC. */
    private static final int TAIL = CRC_DIGITS + 1;

    /** Takes what was found with a good CRC, and says whether it was a message. */
    public interface Sink {
        /** The JSON text of a line. */
        boolean line(byte[] json);

        /** The CBOR of a dense message. */
        boolean dense(byte[] cbor);
    }

    private final boolean takesDense;
    private final byte[] line;
    private int lineLength;
    private boolean lineTooLong;

    private final byte[] dense;
    private int denseLength;
    /** Whether the bytes since the last zero can still be a dense message. */
    private boolean denseOpen;
    /** Pieces that are no lines, but may turn out to be parts of a dense message. */
    private long undecided;

    private long bad;

    private SerialDecoder(int lineBytesMax, boolean takesDense) {
        this.line = new byte[lineBytesMax - 1];
        this.dense = new byte[takesDense ? Wire.BENCH_BYTES_MAX - 2 : 0];
        this.takesDense = takesDense;
        this.denseOpen = takesDense;
    }

    /** For what a bench sends. */
    public static SerialDecoder ofBench() {
        return new SerialDecoder(Wire.BENCH_BYTES_MAX, true);
    }

    /**
     * For what a host sends: lines only.
     *
     * @param maxLine longest line in bytes, line feed included
     */
    public static SerialDecoder ofHost(int maxLine) {
        return new SerialDecoder(maxLine, false);
    }

    /** Takes the next bytes, however many; the sink hears of each message in turn. */
    public void accept(byte[] bytes, int offset, int length, Sink sink) {
        int end = offset + length;
        int from = offset;
        while (from < end) {
            int to = from;
            while (to < end && bytes[to] != 0 && bytes[to] != '\n') {
                to++;
            }
            addToLine(bytes, from, to - from);
            addToDense(bytes, from, to - from);
            if (to < end && bytes[to] == 0) {
                endOfDense(sink);
            } else if (to < end) {
                endOfLine(sink);
                addToDense(bytes, to, 1);
            }
            from = to + 1;
        }
    }

    /** Pieces between line feeds or zeros that were no message, so far. */
    public long bad() {
        return bad;
    }

    private void addToLine(byte[] bytes, int from, int count) {
        int taken = Math.min(count, line.length - lineLength);
        System.arraycopy(bytes, from, line, lineLength, taken);
        lineLength += taken;
        lineTooLong |= taken < count;
    }

    private void addToDense(byte[] bytes, int from, int count) {
        if (denseOpen && count <= dense.length - denseLength) {
            System.arraycopy(bytes, from, dense, denseLength, count);
            denseLength += count;
        } else if (denseOpen) {
            noDense();
        }
    }

    private void noDense() {
        denseOpen = false;
        bad += undecided;
        undecided = 0;
    }

    private void endOfLine(Sink sink) {
        if (lineLength > 0) {
            if (isLine(sink)) {
                noDense();
            } else if (denseOpen) {
                undecided++;
            } else {
                bad++;
            }
        }
        lineLength = 0;
        lineTooLong = false;
    }

    private void endOfDense(Sink sink) {
        boolean found = denseOpen && denseLength > 0 && isDense(sink);
        if (!found) {
            bad += undecided + (lineLength > 0 ? 1 : 0);
        }
        undecided = 0;
        lineLength = 0;
        lineTooLong = false;
        denseLength = 0;
        denseOpen = takesDense;
    }

    private boolean isLine(Sink sink) {
        int text = lineLength - TAIL;
        if (lineTooLong || text <= 0 || line[text] != ' ' || hasReturn(text)) {
            return false;
        }
        long said = 0;
        for (int i = text + 1; i < lineLength; i++) {
            int digit = hex(line[i]);
            if (digit < 0) {
                return false;
            }
            said = said << 4 | digit;
        }
        return said == SerialEncoder.crc(line, text) && sink.line(Arrays.copyOf(line, text));
    }

    private boolean hasReturn(int length) {
        for (int i = 0; i < length; i++) {
            if (line[i] == '\r') {
                return true;
            }
        }
        return false;
    }

    private static int hex(byte digit) {
        if (digit >= '0' && digit <= '9') {
            return digit - '0';
        }
        return digit >= 'a' && digit <= 'f' ? digit - 'a' + 10 : -1;
    }

    private boolean isDense(Sink sink) {
        Optional<byte[]> decoded = Cobs.decode(dense, denseLength);
        if (decoded.isEmpty() || decoded.get().length <= 4) {
            return false;
        }
        byte[] summed = decoded.get();
        int cbor = summed.length - 4;
        long said = 0;
        for (int i = cbor; i < summed.length; i++) {
            said = said << 8 | summed[i] & 0xff;
        }
        return said == SerialEncoder.crc(summed, cbor) && sink.dense(Arrays.copyOf(summed, cbor));
    }
}
