package dev.lapwing.link;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Done;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.BenchMessage.Refused;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.BenchMessage.State;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/** What a bench says, as bytes: JSON without CRC, and samples as CBOR. */
public final class MessageWriter {
    private static final JsonFactory JSON = new JsonFactory();
    private static final CBORFactory CBOR = new CBORFactory();

    private MessageWriter() {}

    /** JSON of a message, UTF-8, without line break, CRC or framing. */
    public static byte[] json(BenchMessage message) {
        return object(out -> {
            if (message instanceof Answer answer) {
                answer(out, answer);
            } else {
                report(out, (Report) message);
            }
        });
    }

    /** JSON of the retained presence. */
    public static byte[] here(BenchCard card) {
        return object(out -> {
            out.writeStringField("m", "bench");
            card(out, card);
        });
    }

    /**
     * CBOR of samples, without CRC or framing.
     *
     * @throws IllegalArgumentException if a count does not fit 16 bits with sign
     */
    public static byte[] dense(Samples samples) {
        byte[] counts = shorts(samples.counts());
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(counts.length + 192);
        try (CBORGenerator out = CBOR.createGenerator(bytes)) {
            out.writeStartObject(samples, 9);
            samplesHead(out, samples);
            out.writeBinaryField("v", counts);
            out.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    private static void answer(JsonGenerator out, Answer answer) throws IOException {
        if (answer instanceof Greeting bench) {
            head(out, "bench", bench);
            out.writeNumberField("next", bench.next());
            BenchCard card = bench.card();
            out.writeNumberField("link", card.link());
            out.writeStringField("name", card.name());
            out.writeStringField("boot", card.boot());
            out.writeNumberField("now-us", bench.nowUs());
            abilities(out, card);
        } else if (answer instanceof Pong pong) {
            head(out, "pong", pong);
            out.writeNumberField("next", pong.next());
            out.writeNumberField("now-us", pong.nowUs());
        } else if (answer instanceof Queued queued) {
            head(out, "queued", queued);
        } else if (answer instanceof Done done) {
            head(out, "done", done);
            out.writeNumberField("next", done.next());
            if (done.atUs() != BenchMessage.NONE) {
                out.writeNumberField("at-us", done.atUs());
            }
        } else if (answer instanceof Refused refused) {
            head(out, "refused", refused);
            out.writeStringField("why", refused.why());
        }
    }

    private static void report(JsonGenerator out, Report report) throws IOException {
        if (report instanceof Samples samples) {
            samplesHead(out, samples);
            rows(out, samples);
        } else if (report instanceof Edge edge) {
            head(out, "edge", edge, edge.tUs());
            out.writeStringField("point", edge.point());
            out.writeNumberField("to", edge.to() ? 1 : 0);
        } else if (report instanceof State state) {
            state(out, state);
        } else if (report instanceof BenchMessage.Safe safe) {
            head(out, "safe", safe, safe.tUs());
            out.writeStringField("why", safe.why());
            if (!safe.by().isEmpty()) {
                out.writeStringField("by", safe.by());
            }
        } else if (report instanceof Fault fault) {
            head(out, "fault", fault, fault.tUs());
            if (!fault.point().isEmpty()) {
                out.writeStringField("point", fault.point());
            }
            out.writeStringField("why", fault.why());
        }
    }

    private static void state(JsonGenerator out, State state) throws IOException {
        head(out, "state", state, state.tUs());
        out.writeBooleanField("armed", state.armed());
        out.writeBooleanField("stop", state.stop());
        out.writeNumberField("bad-lines", state.badLines());
        out.writeObjectFieldStart("digital");
        for (Map.Entry<String, Boolean> level : state.digital().entrySet()) {
            out.writeNumberField(level.getKey(), level.getValue() ? 1 : 0);
        }
        out.writeEndObject();
    }

    private static void head(JsonGenerator out, String m, Answer answer) throws IOException {
        out.writeStringField("m", m);
        out.writeNumberField("id", answer.id());
        out.writeStringField("session", answer.session());
    }

    private static void head(JsonGenerator out, String m, Report report, long tUs) throws IOException {
        out.writeStringField("m", m);
        out.writeNumberField("n", report.n());
        out.writeStringField("session", report.session());
        out.writeNumberField("t-us", tUs);
    }

    private static void samplesHead(JsonGenerator out, Samples samples) throws IOException {
        out.writeStringField("m", "samples");
        out.writeNumberField("n", samples.n());
        out.writeStringField("session", samples.session());
        out.writeStringField("name", samples.name());
        out.writeNumberField("of", samples.of());
        out.writeNumberField("t0-us", samples.t0Us());
        out.writeNumberField("every-us", samples.everyUs());
        out.writeFieldName("points");
        String[] points = samples.points().toArray(String[]::new);
        out.writeArray(points, 0, points.length);
    }

    private static void rows(JsonGenerator out, Samples samples) throws IOException {
        int width = samples.points().size();
        out.writeArrayFieldStart("v");
        for (int row = 0; row < samples.rows(); row++) {
            out.writeArray(samples.counts(), row * width, width);
        }
        out.writeEndArray();
    }

    private static void card(JsonGenerator out, BenchCard card) throws IOException {
        out.writeNumberField("link", card.link());
        out.writeStringField("name", card.name());
        out.writeStringField("boot", card.boot());
        abilities(out, card);
    }

    private static void abilities(JsonGenerator out, BenchCard card) throws IOException {
        out.writeNumberField("clock-ppm", card.clockPpm());
        out.writeNumberField("queue", card.queue());
        out.writeNumberField("max-beat-ms", card.maxBeatMs());
        out.writeNumberField("max-line", card.maxLine());
        out.writeBooleanField("dense", card.dense());
        out.writeArrayFieldStart("points");
        for (LinkPoint point : card.points()) {
            point(out, point);
        }
        out.writeEndArray();
    }

    private static void point(JsonGenerator out, LinkPoint point) throws IOException {
        out.writeStartObject();
        out.writeStringField("name", point.name());
        out.writeStringField("kind", point.kind().text());
        if (!point.kind().digital()) {
            out.writeNumberField("min", point.min());
            out.writeNumberField("max", point.max());
        }
        if (point.kind().output()) {
            out.writeNumberField("safe", point.safe());
        }
        said(out, "stamp-us", point.stampUs());
        said(out, "filter-us", point.filterUs());
        said(out, "glitch-us", point.glitchUs());
        out.writeEndObject();
    }

    private static void said(JsonGenerator out, String name, int us) throws IOException {
        if (us != LinkPoint.UNSAID) {
            out.writeNumberField(name, us);
        }
    }

    private static byte[] shorts(int[] counts) {
        byte[] bytes = new byte[2 * counts.length];
        for (int i = 0; i < counts.length; i++) {
            if (counts[i] != (short) counts[i]) {
                throw new IllegalArgumentException("a count of " + counts[i] + " does not fit a dense message");
            }
            bytes[2 * i] = (byte) counts[i];
            bytes[2 * i + 1] = (byte) (counts[i] >> 8);
        }
        return bytes;
    }

    /** One JSON object whose members {@code members} writes. */
    static byte[] object(Body members) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(256);
        try (JsonGenerator out = JSON.createGenerator(bytes)) {
            out.writeStartObject();
            members.write(out);
            out.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    /** Writes an object's members. */
    interface Body {
        void write(JsonGenerator out) throws IOException;
    }
}
