package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.measure.Measurement.Measured;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * One simulated train: what it did, and the true answers.
 *
 * @param take   what it did
 * @param truths by question; none where nothing came of it
 */
record Specimen(Take take, Map<Question, Double> truths) {
    Specimen {
        truths = Map.copyOf(truths);
    }

    /** The specimen of that seed, driven through the programme and asked. */
    static Specimen driven(BenchFile bench, Fixture fixture, List<Question> questions, long seed) throws BenchFailure {
        Take take = SpecimenDrive.of(bench, fixture, Asked.signals(questions), seed);
        Map<Question, Double> truths = new LinkedHashMap<>();
        for (Question question : questions) {
            long originUs = take.stimuli().get(question.stimulus());
            if (Episode.measure(question, take, originUs, 0) instanceof Measured measured) {
                truths.put(question, measured.estimate().value());
            }
        }
        return new Specimen(take, truths);
    }

    /** Those of the questions to which it has an answer. */
    List<Question> answered(List<Question> questions) {
        return questions.stream().filter(truths::containsKey).toList();
    }
}
