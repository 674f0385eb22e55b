package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.fixture.Fixture;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Whether stated uncertainties hold the truth as often as they say. A few specimens of the simulated trains are driven
 * through the stimuli once and what they truly did is kept; then each run looks at one of them with a bench drawn at
 * random, and its measurements are held against the same measurements of the truth. Pure, and each run stands for
 * itself: runs may be computed in any order and on any number of threads.
 */
public final class CoverageStudy {
    /** Specimens of the unit that a study looks at. */
    public static final int SPECIMENS = 6;

    private final List<Scene> byShare;
    private final List<Scene> stamped;
    private final long seed;

    private CoverageStudy(List<Scene> scenes, long seed) {
        this.seed = seed;
        List<Scene> turns = new ArrayList<>();
        for (int turn = 0; turn < scenes.stream().mapToInt(Scene::share).max().orElse(0); turn++) {
            int round = turn;
            scenes.stream().filter(scene -> scene.share() > round).forEach(turns::add);
        }
        byShare = List.copyOf(turns);
        stamped = scenes.stream().filter(Scene::stamps).toList();
    }

    /**
     * @param bench     of a simulated bench that drives and reads the fixture's train
     * @param specimens how many specimens are driven; {@link #SPECIMENS} where nothing speaks for fewer
     * @param seed      of everything that is drawn
     * @throws BenchFailure if bench and fixture do not fit together
     */
    public static CoverageStudy of(BenchFile bench, Fixture fixture, int specimens, long seed) throws BenchFailure {
        List<Scene> scenes = new ArrayList<>(Scene.ofUnit(bench, fixture, specimens, seed));
        scenes.addAll(Scene.ofLongTrain(bench, fixture, specimens, seed));
        return new CoverageStudy(scenes, seed);
    }

    /** Of the unit alone, without the long train, which takes long to drive. */
    static CoverageStudy ofUnit(BenchFile bench, Fixture fixture, int specimens, long seed) throws BenchFailure {
        return new CoverageStudy(Scene.ofUnit(bench, fixture, specimens, seed), seed);
    }

    /** How many runs go through all scenes once, each by its share. */
    int round() {
        return byShare.size();
    }

    /** The answers of run {@code number}, 0 or more, one for each question that has a true answer. */
    public List<Answer> run(int number) throws BenchFailure {
        Scene scene = byShare.get(number % byShare.size());
        SplittableRandom random = random(number);
        Specimen specimen = drawn(scene, random);
        return run(scene, specimen, scene.stamps() ? DrawnBench.of(random) : DrawnBench.polled(random), random);
    }

    /**
     * As {@link #run}, over the scenes with stamps in turn, at 1 kHz with nothing else wrong: what is left is
     * interpolation.
     */
    public List<Answer> ideal(int number) throws BenchFailure {
        Scene scene = stamped.get(number % stamped.size());
        SplittableRandom random = random(number);
        Specimen specimen = drawn(scene, random);
        return run(scene, specimen, DrawnBench.of(random).ideal(), random);
    }

    private static Specimen drawn(Scene scene, SplittableRandom random) {
        return scene.specimens().get(random.nextInt(scene.specimens().size()));
    }

    private SplittableRandom random(int number) {
        return new SplittableRandom(new SplittableRandom(seed ^ ((long) number << 32)).nextLong());
    }

    private static List<Answer> run(Scene scene, Specimen specimen, DrawnBench bench, SplittableRandom random)
            throws BenchFailure {
        List<Question> all = specimen.answered(scene.questions());
        List<Answer> answers = new ArrayList<>();
        for (String stimulus : all.stream().map(Question::stimulus).distinct().toList()) {
            List<Question> asked =
                    all.stream().filter(q -> q.stimulus().equals(stimulus)).toList();
            answers.addAll(Episode.answers(specimen, asked, bench, random));
        }
        return answers;
    }
}
