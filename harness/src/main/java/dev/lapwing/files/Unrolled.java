package dev.lapwing.files;

import dev.lapwing.sequence.Sequence.Part;
import dev.lapwing.sequence.Step;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Counts the steps that come of unrolling loops and putting parts in place. Only where calls do not go round. */
final class Unrolled {
    /** Far beyond any day's work of a bench. */
    static final int STEPS_MAX = 100_000;

    private final Map<String, Part> parts;
    private final Map<String, Double> counted = new HashMap<>();

    Unrolled(Map<String, Part> parts) {
        this.parts = parts;
    }

    double count(List<Step> steps) {
        double count = 0;
        for (Step step : steps) {
            count += 1 + inner(step);
        }
        return count;
    }

    private double inner(Step step) {
        if (step instanceof Step.ForEach loop) {
            return loop.values().size() * count(loop.steps());
        }
        if (step instanceof Step.OnlyIf only) {
            return count(only.steps());
        }
        if (step instanceof Step.While during) {
            return count(during.steps());
        }
        return step instanceof Step.CallPart call ? count(call.part()) : 0;
    }

    private double count(String part) {
        Double known = counted.get(part);
        if (known == null) {
            known = parts.containsKey(part) ? count(parts.get(part).steps()) : 0;
            counted.put(part, known);
        }
        return known;
    }
}
