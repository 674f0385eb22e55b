package dev.lapwing.e2e;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.lapwing.transport.serial.RewrittenLine.Later;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;

/**
 * Makes of a bench's messages those of an odd one that keeps the contract all the same: the least that it may offer,
 * members in any order and unknown ones among them, messages and points of kinds that no host knows, points that nobody
 * uses, answers that take their time, samples that everything else overtakes.
 */
final class LawfulOddities implements Function<ObjectNode, List<Later>> {
    private static final int ANSWER_MS_MAX = 350;
    private static final int SAMPLES_MS_MAX = 300;

    private final Random random;
    private final Map<String, Integer> most = new ConcurrentHashMap<>();
    private final AtomicInteger shorter = new AtomicInteger();

    LawfulOddities(long seed) {
        random = new Random(seed);
    }

    @Override
    public List<Later> apply(ObjectNode message) {
        List<Later> all = new ArrayList<>();
        switch (message.path("m").asText()) {
            case "bench" -> all.add(once(odd(least(message))));
            case "done", "queued", "refused" ->
                all.add(new Later(odd(message), "answers", random.nextInt(ANSWER_MS_MAX)));
            case "samples" -> {
                count(message.path("name").asText(), message.path("v").size());
                all.add(new Later(odd(message), message.path("name").asText(), random.nextInt(SAMPLES_MS_MAX)));
            }
            case "state" -> {
                ((ObjectNode) message.path("digital")).put("D-SPARE", 1);
                all.add(once(odd(message)));
                all.add(once(unheardOf(message.path("session").asText())));
            }
            default -> all.add(once(odd(message)));
        }
        return all;
    }

    /** How many messages held fewer samples than another of their stream before them. */
    int shorterBatches() {
        return shorter.get();
    }

    private void count(String stream, int samples) {
        if (samples < most.merge(stream, samples, Math::max)) {
            shorter.incrementAndGet();
        }
    }

    private static Later once(ObjectNode message) {
        return new Later(message, "at once", 0);
    }

    /** The least that the contract asks of a bench, and points beside those that are known. */
    private ObjectNode least(ObjectNode card) {
        card.put("queue", 1).put("max-line", 4096).put("dense", false);
        ArrayNode points = (ArrayNode) card.path("points");
        for (int i = 0; i < points.size(); i++) {
            points.set(i, odd((ObjectNode) points.get(i)));
        }
        points.addObject().put("name", "T-SPARE").put("kind", "thermocouple-in").put("min", "cold");
        points.addObject().put("kind", "digital-in").put("name", "D-SPARE");
        points.addObject().put("name", "A-SPARE").put("max", 3).put("min", -3).put("kind", "analog-in");
        return card;
    }

    /** The same members in another order, and some that nobody knows. */
    private ObjectNode odd(ObjectNode object) {
        List<String> names = new ArrayList<>();
        object.fieldNames().forEachRemaining(names::add);
        names.add("remark");
        Collections.shuffle(names, random);
        ObjectNode other = JsonNodeFactory.instance.objectNode();
        for (String name : names) {
            if (name.equals("remark")) {
                other.putObject("remark")
                        .put("m", "safe")
                        .put("n", -1.5e300)
                        .putNull("")
                        .putArray("v");
            } else {
                other.set(name, object.get(name));
            }
        }
        return other;
    }

    private static ObjectNode unheardOf(String session) {
        return JsonNodeFactory.instance
                .objectNode()
                .put("session", session)
                .put("m", "weather")
                .put("t-us", 5)
                .put("in-the-yard", "dry");
    }
}
