package dev.lapwing.evidence;

import dev.lapwing.plan.Course;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.zip.CRC32;

/**
 * Tells the events of a stored log again, to any {@link RunLog}, up to its end or to the first byte that cannot be
 * relied upon. Samples may come in other blocks than they were written in; their counts and stamps are the same.
 */
final class LogReader {
    private final LogBytes log;
    private final Optional<StoredCounts> counts;
    private final CRC32 crc = new CRC32();
    private final Map<Integer, StreamUnpacker> streams = new HashMap<>();
    private byte[] planSha256 = {};
    private long at;
    private boolean ended;

    LogReader(LogBytes log) {
        this(log, Optional.empty());
    }

    /** @param counts told where the counts are, if anybody wants to know */
    LogReader(LogBytes log, Optional<StoredCounts> counts) {
        this.log = log;
        this.counts = counts;
    }

    /** Tells everything, and whether it was everything. */
    Integrity replay(RunLog to) {
        byte[] magic = new byte[(int) Math.min(FrameWriter.MAGIC.length, log.size())];
        log.at(0, magic.length).get(magic);
        if (!Arrays.equals(magic, Arrays.copyOf(FrameWriter.MAGIC, magic.length))) {
            return damaged(0, "it does not begin as a log does");
        }
        at = magic.length;
        while (at < log.size()) {
            if (ended) {
                return damaged(at, "there is something after the end");
            }
            Optional<Integrity> wrong = frame(to);
            if (wrong.isPresent()) {
                return wrong.get();
            }
        }
        return ended ? Integrity.WHOLE : cut(at);
    }

    /** SHA-256 of the plan that the log was written for; empty if the log was cut before it. */
    byte[] planSha256() {
        return planSha256.clone();
    }

    private Optional<Integrity> frame(RunLog to) {
        long left = log.size() - at;
        if (left < FrameWriter.HEAD) {
            return Optional.of(cut(at));
        }
        ByteBuffer head = log.at(at, FrameWriter.HEAD);
        int length = head.getInt();
        int code = head.get() & 0xFF;
        crc.reset();
        crc.update(head.flip());
        head.limit(FrameWriter.HEAD);
        if ((crc.getValue() & 0xFFFF) != (head.getShort() & 0xFFFF)) {
            return Optional.of(damaged(at, "the head of a frame does not agree with its check"));
        }
        if (length < 0 || length > FrameWriter.PAYLOAD_MAX) {
            return Optional.of(damaged(at, "a frame claims " + length + " bytes"));
        }
        if (left < FrameWriter.HEAD + length + FrameWriter.TAIL) {
            return Optional.of(cut(at));
        }
        ByteBuffer frame = log.at(at, FrameWriter.HEAD + length + FrameWriter.TAIL);
        crc.update(frame.slice(5, 2 + length));
        if ((int) crc.getValue() != frame.getInt(FrameWriter.HEAD + length)) {
            return Optional.of(damaged(at, "a frame does not agree with its check"));
        }
        Optional<Integrity> wrong = tell(code, frame.slice(FrameWriter.HEAD, length), to);
        at += FrameWriter.HEAD + length + FrameWriter.TAIL;
        return wrong;
    }

    private Optional<Integrity> tell(int code, ByteBuffer payload, RunLog to) {
        Optional<FrameType> type = FrameType.of(code);
        if (type.isEmpty()) {
            return Optional.of(damaged(at, "a frame of unknown kind " + code));
        }
        try {
            tell(type.get(), new PayloadReader(payload), to);
            return Optional.empty();
        } catch (BufferUnderflowException | IllegalArgumentException e) {
            return Optional.of(damaged(at, "a frame of kind " + type.get() + " makes no sense"));
        }
    }

    private void tell(FrameType type, PayloadReader in, RunLog to) {
        switch (type) {
            case PLAN -> planSha256 = in.raw(32);
            case STREAM -> streams.put((int) in.count(), new StreamUnpacker(StreamUnpacker.stream(in)));
            case SAMPLES -> {
                int number = (int) in.count();
                StreamUnpacker stream = stream(number);
                counts.ifPresent(kept -> kept.frame(number, stream, at));
                to.samples(stream.samples(in));
            }
            case EDGE -> to.edge(in.text(), in.signed(), in.flag());
            case DUE -> tellDue(in, to);
            case EXECUTED -> to.executed(in.signed(), in.signed(), in.signed());
            case OPENED -> to.opened(in.text(), in.signed(), in.signed());
            case CLOSED ->
                to.closed(new Course.ExpectationWindow(in.text(), in.signed(), in.signed(), in.signed(), in.flag()));
            case SAFE -> to.safe(in.signed(), in.text());
            case FAULT -> to.fault(in.signed(), in.text(), in.text());
            case LOST -> to.lost(in.text(), in.signed(), in.signed());
            case TROUBLE ->
                to.trouble(new Course.Trouble(Course.Trouble.Kind.valueOf(in.text()), in.signed(), in.text()));
            case MARK -> to.mark(in.signed(), in.text());
            case END -> {
                ended = true;
                to.end(in.signed(), Course.Ending.valueOf(in.text()));
            }
        }
    }

    private static void tellDue(PayloadReader in, RunLog to) {
        long id = in.signed();
        String text = in.text();
        long dueUs = in.signed();
        long overUs = in.signed();
        Map<String, Double> values = new TreeMap<>();
        int size = in.things();
        for (int i = 0; i < size; i++) {
            values.put(in.text(), in.real());
        }
        to.due(id, text, values, dueUs, overUs);
    }

    private StreamUnpacker stream(int number) {
        StreamUnpacker stream = streams.get(number);
        if (stream == null) {
            throw new IllegalArgumentException("stream " + number + " was never described");
        }
        return stream;
    }

    private static Integrity cut(long at) {
        return new Integrity(
                Integrity.State.CUT,
                "the log ends at byte " + at
                        + " without its end: the harness or the machine stopped in mid-run; whether"
                        + " the bench was made safe is not in this record, so look at the bench");
    }

    private static Integrity damaged(long at, String how) {
        return new Integrity(Integrity.State.DAMAGED, "the log is damaged at byte " + at + ": " + how);
    }
}
