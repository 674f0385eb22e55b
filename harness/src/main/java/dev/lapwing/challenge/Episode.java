package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.measure.GrowingRecording;
import dev.lapwing.measure.Measurement;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NotMeasurable;
import dev.lapwing.measure.Measuring;
import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Words;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.simulated.Replay;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

/** What follows one stimulus, looked at by a drawn bench and measured. */
final class Episode {
    private static final long BEFORE_US = 1_500_000;
    private static final long AFTER_US = 800_000;
    private static final long CLOSED_US = 150_000;
    private static final Words WORDS = new Words(PressureDisplay.PSI);

    private Episode() {}

    /** What a recording says of a question; truths are told by the same measures. */
    static Measurement measure(Question question, Recording recording, long originUs, long boundUs) {
        long closedUs = originUs + watchedUs(question) + CLOSED_US;
        ExpectationWindow seen = new ExpectationWindow("coverage", originUs, originUs, closedUs, true);
        return new Measuring(recording, WORDS).measure(question.check(), seen, boundUs, Map.of());
    }

    private static long watchedUs(Question question) {
        return Math.round(question.check().watchSeconds().orElseThrow() * 1e6);
    }

    /**
     * The answers to questions about one stimulus.
     *
     * @param asked at least one, all of that stimulus and with a true answer
     */
    static List<Answer> answers(Specimen specimen, List<Question> asked, DrawnBench bench, SplittableRandom random)
            throws BenchFailure {
        long originUs = specimen.take().stimuli().get(asked.get(0).stimulus());
        long lastsUs = asked.stream().mapToLong(Episode::watchedUs).max().orElseThrow() + BEFORE_US + AFTER_US;
        BenchFile file = bench.file(Asked.signals(asked));
        GrowingRecording recording = new GrowingRecording(file);
        Replay replay =
                new Replay(file, bench.figures(), specimen.take().from(originUs - BEFORE_US), random.nextLong());
        if (bench.polling().isPresent()) {
            new PolledLine(replay, file, bench.polling().get(), random).play(lastsUs * 1000, new Into(recording));
        } else {
            DelayedLink link = new DelayedLink(new Into(recording), bench.delayUs(), bench.jitterUs(), random);
            replay.play(lastsUs * 1000, link);
            link.deliver();
        }
        long wrongUs = Math.round(bench.stimulusUs() * (2 * random.nextDouble() - 1));
        long stampUs = replay.benchUs(BEFORE_US * 1000) + wrongUs;
        List<Answer> answers = new ArrayList<>();
        for (Question question : asked) {
            Measurement found = measure(question, recording, stampUs, bench.stimulusUs());
            answers.add(answer(question, found, specimen.truths().get(question), bench.delayUs()));
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
    private record Into(GrowingRecording recording) implements SelectiveListener {
        @Override
        public void samples(SampleBlock block) {
            recording.samples(block);
        }

        @Override
        public void edge(String point, long atUs, boolean level) {
            recording.edge(point, atUs, level);
        }

        @Override
        public void lost(String streamOrPoint, long fromUs, long toUs) {
            recording.lost(streamOrPoint, fromUs, toUs);
        }
    }
}
