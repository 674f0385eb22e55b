package dev.lapwing.link;

import dev.lapwing.bench.PointKind;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.BenchMessage.State;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What a bench said, from its bytes. Unknown members and points of unknown kinds are left out. */
public final class MessageReader {
    private MessageReader() {}

    /** Reads JSON without CRC; empty if it is not a whole message of this link. */
    public static Optional<BenchMessage> benchMessage(byte[] json) {
        try {
            Members members = Members.ofJson(json);
            return Optional.of(benchMessage(members, members.text("m")));
        } catch (UnreadableMessage | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    /** Reads samples in CBOR, without CRC or framing; empty if they are none. */
    public static Optional<BenchMessage> denseSamples(byte[] cbor) {
        try {
            Members members = Members.ofCbor(cbor);
            return members.text("m").equals("samples")
                    ? Optional.of(samples(members, shorts(members)).asDense())
                    : Optional.empty();
        } catch (UnreadableMessage | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    /** Reads a retained presence; empty if it is none. */
    public static Optional<BenchCard> here(byte[] json) {
        try {
            Members members = Members.ofJson(json);
            return members.text("m").equals("bench") ? Optional.of(card(members)) : Optional.empty();
        } catch (UnreadableMessage | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    private static BenchMessage benchMessage(Members in, String m) throws UnreadableMessage {
        String session = in.token("session");
        return switch (m) {
            case "bench" -> new Greeting(session, id(in), in.large("next"), in.large("now-us"), card(in));
            case "pong" -> new Pong(session, id(in), in.large("next"), in.large("now-us"));
            case "queued" -> new Queued(session, id(in));
            case "done" -> new Done(session, id(in), in.large("next"), orNone(in, "at-us"));
            case "refused" -> new Refused(session, id(in), in.text("why"));
            case "samples" -> samples(in, in.rows("v", in.names("points").size()));
            case "edge" ->
                new Edge(session, in.large("n"), in.large("t-us"), in.name("point"), in.number("to", 0, 1) == 1);
            case "state" ->
                new State(
                        session,
                        in.large("n"),
                        in.large("t-us"),
                        in.flag("armed"),
                        in.flag("stop"),
                        in.large("bad-lines"),
                        levels(in.object("digital")));
            case "safe" ->
                new BenchMessage.Safe(
                        session, in.large("n"), in.large("t-us"), in.text("why"), in.has("by") ? in.token("by") : "");
            case "fault" ->
                new Fault(
                        session,
                        in.large("n"),
                        in.large("t-us"),
                        in.has("point") ? in.name("point") : "",
                        in.text("why"));
            default -> throw new UnreadableMessage("'" + m + "' is no message of a bench");
        };
    }

    private static Samples samples(Members in, int[] counts) throws UnreadableMessage {
        return new Samples(
                in.token("session"),
                in.large("n"),
                in.name("name"),
                in.small("of", 0),
                in.large("t0-us"),
                in.number("every-us", 1, Integer.MAX_VALUE),
                in.names("points"),
                counts);
    }

    private static int[] shorts(Members in) throws UnreadableMessage {
        byte[] bytes = in.bytes("v");
        if (bytes.length % 2 != 0) {
            throw in.wrong("v", "counts of two bytes");
        }
        int[] counts = new int[bytes.length / 2];
        ByteBuffer pairs = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        for (int i = 0; i < counts.length; i++) {
            counts[i] = pairs.getShort(2 * i);
        }
        return counts;
    }

    private static BenchCard card(Members in) throws UnreadableMessage {
        List<LinkPoint> points = new ArrayList<>();
        for (Members point : in.objects("points")) {
            Optional<PointKind> kind = PointKind.named(point.text("kind"));
            if (kind.isPresent()) {
                points.add(point(point, kind.get()));
            }
        }
        return new BenchCard(
                in.small("link", 0),
                in.name("name"),
                in.token("boot"),
                in.small("clock-ppm", 0),
                in.small("queue", 1),
                in.small("max-beat-ms", Wire.BEAT_MS_MIN),
                in.small("max-line", Wire.HOST_BYTES_MAX),
                in.flag("dense"),
                points);
    }

    private static LinkPoint point(Members in, PointKind kind) throws UnreadableMessage {
        return new LinkPoint(
                in.name("name"),
                kind,
                kind.digital() ? 0 : count(in, "min"),
                kind.digital() ? 1 : count(in, "max"),
                kind.output() ? count(in, "safe") : 0,
                (int) in.numberOr("stamp-us", LinkPoint.UNSAID, 0, Integer.MAX_VALUE),
                (int) in.numberOr("filter-us", LinkPoint.UNSAID, 0, Integer.MAX_VALUE),
                (int) in.numberOr("glitch-us", LinkPoint.UNSAID, 0, Integer.MAX_VALUE));
    }

    private static Map<String, Boolean> levels(Members in) throws UnreadableMessage {
        Map<String, Boolean> levels = new LinkedHashMap<>();
        for (String point : in.memberNames()) {
            levels.put(point, in.number(point, 0, 1) == 1);
        }
        return levels;
    }

    private static int count(Members in, String name) throws UnreadableMessage {
        return (int) in.number(name, Integer.MIN_VALUE, Integer.MAX_VALUE);
    }

    private static int id(Members in) throws UnreadableMessage {
        return in.small("id", 0);
    }

    private static long orNone(Members in, String name) throws UnreadableMessage {
        return in.numberOr(name, BenchMessage.NONE, 0, Wire.NUMBER_MAX);
    }
}
