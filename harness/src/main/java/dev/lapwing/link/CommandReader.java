package dev.lapwing.link;

import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Hello;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.SelfTest;
import dev.lapwing.link.HostMessage.Stream;
import dev.lapwing.link.HostMessage.Unreadable;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** What a host said, from its bytes. Unknown members are left out. */
public final class CommandReader {
    /** Instead of the name of a message that has none. */
    private static final String NO_NAME = "";
    /** Instead of the number of a link that cannot be read. */
    private static final int NO_LINK = -1;

    private CommandReader() {}

    /** Reads JSON without CRC. Empty if it must be dropped: no JSON object, or nobody to answer to and no safe. */
    public static Optional<HostMessage> hostMessage(byte[] json) {
        try {
            Members in = Members.ofJson(json);
            return Optional.of(hostMessage(in, in.textOr("m", NO_NAME)));
        } catch (UnreadableMessage e) {
            return Optional.empty();
        }
    }

    /** @throws UnreadableMessage if it must be dropped */
    private static HostMessage hostMessage(Members in, String m) throws UnreadableMessage {
        if (m.equals("safe")) {
            return safe(in);
        }
        String session = in.token("session");
        if (m.equals("beat")) {
            return new Beat(session, in.large("k"), in.large("seen-us"));
        }
        int id = in.small("id", 0);
        try {
            return command(in, m, session, id);
        } catch (UnreadableMessage e) {
            return new Unreadable(session, id, m, Refusal.BAD_MESSAGE, e.getMessage());
        }
    }

    /** Whatever else is wrong with it: a safe is executed. */
    private static Safe safe(Members in) {
        String session;
        int id;
        try {
            session = in.token("session");
            id = in.small("id", 0);
        } catch (UnreadableMessage e) {
            return new Safe("", Safe.NO_ID);
        }
        return new Safe(session, id);
    }

    private static HostMessage command(Members in, String m, String session, int id) throws UnreadableMessage {
        return switch (m) {
            case "hello" -> hello(in, session, id);
            case "ping" -> new Ping(session, id);
            case "self-test" -> new SelfTest(session, id);
            case "stream" -> stream(in, session, id);
            case "arm" ->
                new Arm(
                        session,
                        id,
                        in.token("boot"),
                        in.large("until-us"),
                        in.small("beat-ms", 0),
                        in.has("limits") ? limits(in.object("limits")) : Map.of());
            case "set" -> set(in, session, id);
            case NO_NAME -> throw in.wrong("m", "the name of a message");
            default -> new Unreadable(session, id, m, Refusal.UNSUPPORTED, "");
        };
    }

    /** Of another link's greeting nothing but its number is known. */
    private static HostMessage hello(Members in, String session, int id) throws UnreadableMessage {
        int link = in.smallOr("link", NO_LINK);
        return new Hello(session, id, link, link == Wire.LINK ? in.text("host") : "");
    }

    private static HostMessage stream(Members in, String session, int id) throws UnreadableMessage {
        String name = in.name("name");
        List<String> points = in.texts("points");
        if (Set.copyOf(points).size() < points.size()) {
            throw in.wrong("points", "a list of points, each once");
        }
        if (points.isEmpty()) {
            return new Stream(session, id, name, points, 1, 1, 1, false);
        }
        return new Stream(
                session,
                id,
                name,
                points,
                in.small("every-us", 1),
                in.small("batch", 1),
                in.small("flush-ms", 1),
                in.has("dense") && in.flag("dense"));
    }

    private static HostMessage set(Members in, String session, int id) throws UnreadableMessage {
        long untilUs = in.large("until-us");
        long atUs = in.numberOr("at-us", HostMessage.Set.ON_RECEIPT, 0, Wire.NUMBER_MAX);
        if (untilUs < atUs) {
            throw in.wrong("until-us", "at 'at-us' or later");
        }
        Members said = in.object("points");
        Map<String, Integer> points = new LinkedHashMap<>();
        for (String point : said.memberNames()) {
            points.put(point, (int) said.number(point, Integer.MIN_VALUE, Integer.MAX_VALUE));
        }
        if (points.isEmpty()) {
            throw in.wrong("points", "at least one output and its value");
        }
        long overUs = in.numberOr("over-us", 0, 0, Wire.NUMBER_MAX);
        return new HostMessage.Set(session, id, in.token("boot"), points, atUs, untilUs, overUs);
    }

    private static Map<String, Limit> limits(Members in) throws UnreadableMessage {
        Map<String, Limit> limits = new LinkedHashMap<>();
        for (String point : in.memberNames()) {
            limits.put(point, limit(in, point));
        }
        return limits;
    }

    private static Limit limit(Members in, String point) throws UnreadableMessage {
        List<?> sides = in.list(point);
        if (sides.size() == 2) {
            Optional<Integer> low = side(sides.get(0), Limit.NO_LOW);
            Optional<Integer> high = side(sides.get(1), Limit.NO_HIGH);
            if (low.isPresent() && high.isPresent() && low.get() <= high.get()) {
                return new Limit(low.get(), high.get());
            }
        }
        throw in.wrong(point, "[low, high] in counts, each an integer or null");
    }

    private static Optional<Integer> side(Object said, int none) {
        if (said == Members.NULL) {
            return Optional.of(none);
        }
        boolean fits = said instanceof Long count && count > Integer.MIN_VALUE && count < Integer.MAX_VALUE;
        return fits ? Optional.of(((Long) said).intValue()) : Optional.empty();
    }
}
