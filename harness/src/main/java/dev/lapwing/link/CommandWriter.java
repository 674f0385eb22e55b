package dev.lapwing.link;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.lapwing.link.HostMessage.Arm;
import dev.lapwing.link.HostMessage.Beat;
import dev.lapwing.link.HostMessage.Command;
import dev.lapwing.link.HostMessage.Hello;
import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.HostMessage.Ping;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.HostMessage.SelfTest;
import dev.lapwing.link.HostMessage.Stream;
import java.io.IOException;
import java.util.Map;

/** What a host says, as bytes of JSON without CRC. */
public final class CommandWriter {
    private CommandWriter() {}

    /**
     * JSON of a message, UTF-8, without line break, CRC or framing.
     *
     * @throws IllegalArgumentException for what was received unreadable: it is never sent
     */
    public static byte[] json(HostMessage message) {
        return MessageWriter.object(out -> write(out, message));
    }

    private static void write(JsonGenerator out, HostMessage message) throws IOException {
        if (message instanceof Hello hello) {
            head(out, "hello", hello);
            out.writeNumberField("link", hello.link());
            out.writeStringField("host", hello.host());
        } else if (message instanceof Ping ping) {
            head(out, "ping", ping);
        } else if (message instanceof SelfTest test) {
            head(out, "self-test", test);
        } else if (message instanceof Stream stream) {
            stream(out, stream);
        } else if (message instanceof Arm arm) {
            arm(out, arm);
        } else if (message instanceof HostMessage.Set set) {
            set(out, set);
        } else if (message instanceof Beat beat) {
            out.writeStringField("m", "beat");
            out.writeStringField("session", beat.session());
            out.writeNumberField("k", beat.k());
            out.writeNumberField("seen-us", beat.seenUs());
        } else if (message instanceof Safe safe) {
            head(out, "safe", safe);
        } else {
            throw new IllegalArgumentException("not to be sent: " + message);
        }
    }

    private static void stream(JsonGenerator out, Stream stream) throws IOException {
        head(out, "stream", stream);
        out.writeStringField("name", stream.name());
        out.writeArrayFieldStart("points");
        for (String point : stream.points()) {
            out.writeString(point);
        }
        out.writeEndArray();
        out.writeNumberField("every-us", stream.everyUs());
        out.writeNumberField("batch", stream.batch());
        out.writeNumberField("flush-ms", stream.flushMs());
        if (stream.dense()) {
            out.writeBooleanField("dense", true);
        }
    }

    private static void arm(JsonGenerator out, Arm arm) throws IOException {
        head(out, "arm", arm);
        out.writeStringField("boot", arm.boot());
        out.writeNumberField("until-us", arm.untilUs());
        out.writeNumberField("beat-ms", arm.beatMs());
        if (!arm.limits().isEmpty()) {
            out.writeObjectFieldStart("limits");
            for (Map.Entry<String, Limit> entry : arm.limits().entrySet()) {
                Limit limit = entry.getValue();
                out.writeArrayFieldStart(entry.getKey());
                side(out, limit.low(), Limit.NO_LOW);
                side(out, limit.high(), Limit.NO_HIGH);
                out.writeEndArray();
            }
            out.writeEndObject();
        }
    }

    private static void side(JsonGenerator out, int count, int none) throws IOException {
        if (count == none) {
            out.writeNull();
        } else {
            out.writeNumber(count);
        }
    }

    private static void set(JsonGenerator out, HostMessage.Set set) throws IOException {
        head(out, "set", set);
        out.writeStringField("boot", set.boot());
        out.writeObjectFieldStart("points");
        for (Map.Entry<String, Integer> point : set.points().entrySet()) {
            out.writeNumberField(point.getKey(), point.getValue());
        }
        out.writeEndObject();
        if (set.timed()) {
            out.writeNumberField("at-us", set.atUs());
        }
        out.writeNumberField("until-us", set.untilUs());
        if (set.overUs() > 0) {
            out.writeNumberField("over-us", set.overUs());
        }
    }

    private static void head(JsonGenerator out, String m, Command command) throws IOException {
        out.writeStringField("m", m);
        out.writeNumberField("id", command.id());
        out.writeStringField("session", command.session());
    }
}
