package dev.lapwing.link.host;

import org.jspecify.annotations.Nullable;

/** The end of a run, stage by stage: safe, no more streams, a last ping, everything below its number. */
final class Finish {
    private enum Stage {
        NOT_ASKED,
        SAFE,
        STREAMS,
        PING,
        COLLECT,
        DONE
    }

    private Stage stage = Stage.NOT_ASKED;
    private @Nullable Repeats pings;
    private int afterId;

    void begin() {
        if (stage == Stage.NOT_ASKED) {
            stage = Stage.SAFE;
        }
    }

    /** True once: the streams are to be ended now. */
    boolean beginsStreams(boolean safeDone) {
        return pass(Stage.SAFE, safeDone, Stage.STREAMS);
    }

    /** True once: the last ping is to be sent now; later ids than {@code lastId} count as it. */
    boolean beginsPing(boolean ordersDone, int lastId, long nowNanos) {
        if (!pass(Stage.STREAMS, ordersDone, Stage.PING)) {
            return false;
        }
        afterId = lastId;
        pings = Repeats.fromNow(nowNanos);
        return true;
    }

    /** True once: all is in. */
    boolean complete(boolean nothingAwaited) {
        return pass(Stage.COLLECT, nothingAwaited, Stage.DONE);
    }

    boolean pingDue(long nowNanos) {
        return stage == Stage.PING && pings != null && pings.due(nowNanos);
    }

    void pinged(long nowNanos) {
        if (stage == Stage.PING && pings != null) {
            pings.said(nowNanos);
        }
    }

    void answered(int id) {
        pass(Stage.PING, id > afterId, Stage.COLLECT);
    }

    boolean exhausted(long nowNanos) {
        return stage == Stage.PING && pings != null && pings.exhausted(nowNanos);
    }

    long dueNanos() {
        return stage == Stage.PING && pings != null ? pings.dueNanos() : Long.MAX_VALUE;
    }

    private boolean pass(Stage from, boolean when, Stage to) {
        boolean passes = stage == from && when;
        stage = passes ? to : stage;
        return passes;
    }
}
