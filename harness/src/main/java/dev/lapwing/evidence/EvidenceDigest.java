package dev.lapwing.evidence;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.plan.Course;
import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * The checksum of what a run proved: plan, raw counts, edges, commands, windows, losses and findings, each in a form
 * that does not depend on how it was packed. Not in it: run id, wall time, host, versions, the directories of files (a
 * place counts as {@code file:line:column}), and sentences for people, since they say the same figures again in the
 * unit that the reader chose.
 */
final class EvidenceDigest implements RunLog {
    private static final Set<String> PATHS = Set.of("file", "place");
    private static final Set<String> PROSE =
            Set.of("text", "sentence", "because", "quantity", "label", "why", "title", "purpose");

    private final Map<String, MessageDigest> streams = new TreeMap<>();
    private final MessageDigest edges = Sha256.start();
    private final MessageDigest commands = Sha256.start();
    private final MessageDigest windows = Sha256.start();
    private final Payload payload = new Payload();
    private ByteBuffer row = ByteBuffer.allocate(0);

    /** The checksum over everything told so far and these, in lower-case hexadecimal. */
    String sha256(JsonNode plan, JsonNode findings) {
        StringBuilder parts = new StringBuilder("lapwing evidence 1\n");
        line(parts, "plan", Sha256.of(RecordJson.compact(core(plan))));
        streams.forEach((name, digest) -> line(parts, "counts " + name, Sha256.peek(digest)));
        line(parts, "edges", Sha256.peek(edges));
        line(parts, "commands", Sha256.peek(commands));
        line(parts, "windows", Sha256.peek(windows));
        line(parts, "findings", Sha256.of(RecordJson.compact(core(findings))));
        return Sha256.of(parts.toString().getBytes(UTF_8));
    }

    private static void line(StringBuilder parts, String what, String sha256) {
        parts.append(what).append(' ').append(sha256).append('\n');
    }

    @Override
    public void samples(SampleBlock block) {
        MessageDigest digest = streams.computeIfAbsent(block.stream().name(), name -> {
            MessageDigest started = Sha256.start();
            started.update(String.join(" ", block.stream().points()).getBytes(UTF_8));
            return started;
        });
        int width = block.stream().points().size();
        int needed = block.rows() * (8 + 4 * width);
        if (row.capacity() < needed) {
            row = ByteBuffer.allocate(needed);
        }
        row.clear();
        for (int i = 0; i < block.rows(); i++) {
            row.putLong(block.t0Us() + i * block.stream().everyUs());
            for (int column = 0; column < width; column++) {
                row.putInt(block.counts()[i * width + column]);
            }
        }
        digest.update(row.array(), 0, needed);
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        add(edges, payload.clear().text(point).signed(atUs).flag(level));
    }

    @Override
    public void due(long id, String text, Map<String, Double> values, long dueUs, long overUs) {
        payload.clear().octet('d').signed(id).signed(dueUs).signed(overUs);
        new TreeMap<>(values)
                .forEach((actuator, value) -> payload.text(actuator).real(value));
        add(commands, payload);
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        add(commands, payload.clear().octet('x').signed(id).signed(dueUs).signed(atUs));
    }

    @Override
    public void opened(String expectation, long originUs, long atUs) {
        // What counts is the window as it finally is.
    }

    @Override
    public void closed(Course.ExpectationWindow window) {
        add(
                windows,
                payload.clear()
                        .text(window.id())
                        .signed(window.originUs())
                        .signed(window.openedUs())
                        .signed(window.closedUs())
                        .flag(window.complete()));
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        add(
                windows,
                payload.clear().octet('l').text(streamOrPoint).signed(fromUs).signed(toUs));
    }

    @Override
    public void safe(long atUs, String why) {
        // In words of the link or the system; what follows from it is in the findings.
    }

    @Override
    public void fault(long atUs, String point, String why) {
        // In words of the link or the system; what follows from it is in the findings.
    }

    @Override
    public void trouble(Course.Trouble trouble) {
        // In words of the link or the system; what follows from it is in the findings.
    }

    @Override
    public void mark(long atUs, String text) {
        // A remark of the operator proves nothing.
    }

    @Override
    public void end(long atUs, Course.Ending ending) {
        add(windows, payload.clear().octet('e').text(ending.name()));
    }

    private static void add(MessageDigest digest, Payload payload) {
        digest.update(payload.bytes(), 0, payload.size());
    }

    /** A copy without sentences, in which files and places have lost their directories. */
    private static JsonNode core(JsonNode node) {
        if (node.isArray()) {
            var copy = JsonNodeFactory.instance.arrayNode();
            node.forEach(part -> copy.add(core(part)));
            return copy;
        }
        if (!node.isObject()) {
            return node;
        }
        ObjectNode copy = JsonNodeFactory.instance.objectNode();
        for (Map.Entry<String, JsonNode> field : node.properties()) {
            boolean text = field.getValue().isTextual();
            if (text && PATHS.contains(field.getKey())) {
                copy.put(field.getKey(), lastSegment(field.getValue().textValue()));
            } else if (!text || !PROSE.contains(field.getKey())) {
                copy.set(field.getKey(), core(field.getValue()));
            }
        }
        return copy;
    }

    private static String lastSegment(String path) {
        return path.substring(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
    }
}
