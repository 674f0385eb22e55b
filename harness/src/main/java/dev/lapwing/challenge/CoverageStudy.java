package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.measure.GrowingRecording;
import dev.lapwing.measure.Measurement;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NotMeasurable;
import dev.lapwing.measure.Measuring;
import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Words;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.simulated.Replay;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

/**
 * Whether stated uncertainties hold the truth as often as they say. A few specimens of the simulated train are driven
 * through the stimuli once and what they truly did is kept; then each run looks at one of them with a bench drawn at
 * random, and its measurements are held against the same measurements of the truth. Pure, and each run stands for
 * itself: runs may be computed in any order and on any number of threads.
 */
public final class CoverageStudy {
    /** Specimens that a study looks at. */
    public static final int SPECIMENS = 6;

    private static final long BEFORE_US = 1_500_000;
    private static final long AFTER_US = 300_000;
    private static final Words WORDS = new Words(PressureDisplay.PSI);

    private final List<Question> questions;
    private final List<Specimen> specimens;
    private final long seed;

    /** What a specimen did, and the true answers. */
    private record Specimen(Take take, Map<Question, Double> truths) {}

    private CoverageStudy(List<Question> questions, List<Specimen> specimens, long seed) {
        this.questions = questions;
        this.specimens = specimens;
        this.seed = seed;
    }

    /**
     * @param bench     of a simulated bench that drives and reads the fixture's train
     * @param specimens how many specimens are driven; {@link #SPECIMENS} where nothing speaks for fewer
     * @param seed      of everything that is drawn
     * @throws BenchFailure if bench and fixture do not fit together
     */
    public static CoverageStudy of(BenchFile bench, Fixture fixture, int specimens, long seed) throws BenchFailure {
        List<Question> questions = Questions.of(fixture.wiring().vehicles());
        List<Specimen> driven = new ArrayList<>();
        for (int i = 0; i < specimens; i++) {
            Take take = Performance.of(bench, fixture, Questions.signals(questions), seed + i);
            Map<Question, Double> truths = new LinkedHashMap<>();
            for (Question question : questions) {
                long originUs = take.stimuli().get(question.stimulus());
                truth(question, take, originUs).ifPresent(value -> truths.put(question, value));
            }
            driven.add(new Specimen(take, truths));
        }
        return new CoverageStudy(questions, driven, seed);
    }

    private static OptionalDouble truth(Question question, Take take, long originUs) {
        return measure(question, take, originUs, 0) instanceof Measured measured
                ? OptionalDouble.of(measured.estimate().value())
                : OptionalDouble.empty();
    }

    private static Measurement measure(Question question, Recording recording, long originUs, long boundUs) {
        long closedUs = originUs + watchedUs(question) + AFTER_US / 2;
        ExpectationWindow seen = new ExpectationWindow("coverage", originUs, originUs, closedUs, true);
        return new Measuring(recording, WORDS).measure(question.check(), seen, boundUs, Map.of());
    }

    private static long watchedUs(Question question) {
        return Math.round(question.check().watchSeconds().orElseThrow() * 1e6);
    }

    /** The answers of run {@code number}, one for each question that has a true answer. */
    public List<Answer> run(int number) throws BenchFailure {
        SplittableRandom random = random(number);
        return run(specimens.get(random.nextInt(specimens.size())), DrawnBench.of(random), random);
    }

    /** As {@link #run}, at 1 kHz with nothing else wrong: what is left is interpolation. */
    public List<Answer> ideal(int number) throws BenchFailure {
        SplittableRandom random = random(number);
        return run(
                specimens.get(random.nextInt(specimens.size())),
                DrawnBench.of(random).ideal(),
                random);
    }

    private SplittableRandom random(int number) {
        return new SplittableRandom(new SplittableRandom(seed ^ ((long) number << 32)).nextLong());
    }

    private List<Answer> run(Specimen specimen, DrawnBench bench, SplittableRandom random) throws BenchFailure {
        List<Answer> answers = new ArrayList<>();
        for (String stimulus :
                questions.stream().map(Question::stimulus).distinct().toList()) {
            List<Question> asked = questions.stream()
                    .filter(question -> question.stimulus().equals(stimulus))
                    .filter(specimen.truths::containsKey)
                    .toList();
            answers.addAll(episode(specimen, stimulus, asked, bench, random));
        }
        return answers;
    }

    private static List<Answer> episode(
            Specimen specimen, String stimulus, List<Question> asked, DrawnBench bench, SplittableRandom random)
            throws BenchFailure {
        long originUs = specimen.take.stimuli().get(stimulus);
        long startUs = originUs - BEFORE_US;
        long lastsUs = asked.stream().mapToLong(CoverageStudy::watchedUs).max().orElse(0) + BEFORE_US + AFTER_US;
        List<Signal> signals = Questions.signals(asked);
        BenchFile file = bench.file(signals);
        GrowingRecording recording = new GrowingRecording(file);
        Replay replay = new Replay(file, bench.figures(), specimen.take.from(startUs), random.nextLong());
        DelayedLink link = new DelayedLink(new Into(recording), bench.delayUs(), bench.jitterUs(), random);
        replay.play(lastsUs * 1000, link);
        link.deliver();
        long wrongUs = Math.round(bench.stimulusUs() * (2 * random.nextDouble() - 1));
        long stampUs = replay.benchUs(BEFORE_US * 1000) + wrongUs;
        List<Answer> answers = new ArrayList<>();
        for (Question question : asked) {
            double truth = specimen.truths.get(question);
            Measurement found = measure(question, recording, stampUs, bench.stimulusUs());
            answers.add(answer(question, found, truth, bench.delayUs()));
        }
        return answers;
    }

    private static Answer answer(Question question, Measurement found, double truth, long delayUs) {
        if (found instanceof Measured measured) {
            return new Answer(question, Optional.of(measured.estimate()), truth, "", delayUs);
        }
        String why = found instanceof NotMeasurable not ? not.reason() : "it was not seen to happen";
        return new Answer(question, Optional.empty(), truth, why, delayUs);
    }

    /** Tells a recording what a bench reports. */
    private record Into(GrowingRecording recording) implements BenchListener {
        @Override
        public void samples(SampleBlock block) {
            recording.samples(block);
        }

        @Override
        public void edge(String point, long atUs, boolean level) {
            recording.edge(point, atUs, level);
        }

        @Override
        public void executed(long id, long dueUs, long atUs) {}

        @Override
        public void safe(long atUs, String why) {}

        @Override
        public void fault(long atUs, String point, String why) {}

        @Override
        public void lost(String streamOrPoint, long fromUs, long toUs) {
            recording.lost(streamOrPoint, fromUs, toUs);
        }
    }
}
