package dev.lapwing.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.Step;
import dev.lapwing.source.Mistake;
import dev.lapwing.source.Place;
import java.util.List;

/** Resolves what is mistaken, for tests that look at the mistakes. */
final class Mistaken {
    private Mistaken() {}

    static List<Mistake> expecting(Written w, Expectation expectation) {
        return mistakes(w.expect("it", expectation));
    }

    static List<Mistake> mistakes(Step... steps) {
        return mistakes(Models.bench(), Written.sequence(steps));
    }

    static List<Mistake> mistakes(BenchFile bench, Sequence sequence) {
        return mistakes(Models.unit(), bench, sequence);
    }

    static List<Mistake> mistakes(Subject unit, BenchFile bench, Sequence sequence) {
        Resolution resolution = Resolver.resolve(sequence, unit, bench, PressureDisplay.PSI);
        assertThat(resolution).isInstanceOf(Resolution.Mistaken.class);
        return ((Resolution.Mistaken) resolution).mistakes();
    }

    static Mistake only(List<Mistake> mistakes) {
        assertThat(mistakes).hasSize(1);
        return mistakes.get(0);
    }

    static Place at(int line) {
        return new Place("sequences/test.yaml", line, 3);
    }
}
