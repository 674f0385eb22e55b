package dev.lapwing.evidence;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.plan.Course;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Writes the events of a run as frames. */
final class LogWriter implements RunLog, AutoCloseable {
    /** Bench time after which samples are handed to the operating system at the latest. */
    private static final long PUSH_EVERY_US = 1_000_000;

    private final FrameWriter frames;
    private final Payload payload = new Payload();
    private final Map<String, StreamPacker> streams = new HashMap<>();
    /** In order of appearance, so that the same run gives the same bytes. */
    private final List<StreamPacker> inOrder = new ArrayList<>();

    private long pushedUs = Long.MIN_VALUE;
    private boolean ended;

    LogWriter(FrameWriter frames, byte[] planSha256) {
        this.frames = frames;
        frames.frame(FrameType.PLAN, payload.clear().raw(planSha256));
        frames.force();
    }

    @Override
    public void samples(SampleBlock block) {
        checkOpen();
        StreamPacker packer = streams.get(block.stream().name());
        if (packer == null) {
            packer = new StreamPacker(inOrder.size(), block.stream());
            streams.put(block.stream().name(), packer);
            inOrder.add(packer);
            packer.describe(payload.clear());
            frames.frame(FrameType.STREAM, payload);
        }
        packer.add(block, this::writeSamples);
        if (block.t0Us() >= pushedUs + PUSH_EVERY_US || pushedUs == Long.MIN_VALUE) {
            pushedUs = block.t0Us();
            drain();
            frames.push();
        }
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        write(FrameType.EDGE, open().text(point).signed(atUs).flag(level));
    }

    @Override
    public void due(long id, String text, Map<String, Double> values, long dueUs, long overUs) {
        Payload command =
                open().signed(id).text(text).signed(dueUs).signed(overUs).count(values.size());
        values.entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .forEach(entry -> command.text(entry.getKey()).real(entry.getValue()));
        write(FrameType.DUE, command);
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        write(FrameType.EXECUTED, open().signed(id).signed(dueUs).signed(atUs));
    }

    @Override
    public void opened(String expectation, long originUs, long atUs) {
        write(FrameType.OPENED, open().text(expectation).signed(originUs).signed(atUs));
    }

    @Override
    public void closed(Course.ExpectationWindow window) {
        write(
                FrameType.CLOSED,
                open().text(window.id())
                        .signed(window.originUs())
                        .signed(window.openedUs())
                        .signed(window.closedUs())
                        .flag(window.complete()));
        drain();
        frames.force();
    }

    @Override
    public void safe(long atUs, String why) {
        write(FrameType.SAFE, open().signed(atUs).text(why));
    }

    @Override
    public void fault(long atUs, String point, String why) {
        write(FrameType.FAULT, open().signed(atUs).text(point).text(why));
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        write(FrameType.LOST, open().text(streamOrPoint).signed(fromUs).signed(toUs));
    }

    @Override
    public void trouble(Course.Trouble trouble) {
        write(
                FrameType.TROUBLE,
                open().text(trouble.kind().name()).signed(trouble.atUs()).text(trouble.why()));
        drain();
        frames.push();
    }

    @Override
    public void mark(long atUs, String text) {
        write(FrameType.MARK, open().signed(atUs).text(text));
    }

    @Override
    public void end(long atUs, Course.Ending ending) {
        checkOpen();
        drain();
        write(FrameType.END, open().signed(atUs).text(ending.name()));
        ended = true;
        frames.force();
    }

    /** Writes what is left without an end, as a crash would leave it. */
    @Override
    public void close() {
        drain();
        frames.close();
    }

    private void drain() {
        inOrder.forEach(packer -> packer.drain(this::writeSamples));
    }

    private void writeSamples(StreamPacker packer) {
        packer.pack(payload.clear());
        frames.frame(FrameType.SAMPLES, payload);
    }

    private Payload open() {
        checkOpen();
        return payload.clear();
    }

    private void write(FrameType type, Payload filled) {
        frames.frame(type, filled);
    }

    private void checkOpen() {
        if (ended) {
            throw new IllegalStateException("the log has ended; nothing may be appended");
        }
    }
}
