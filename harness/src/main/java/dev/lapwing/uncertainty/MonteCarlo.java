package dev.lapwing.uncertainty;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/**
 * Propagation of distributions by JCGM 101:2008 with its adaptive procedure (7.9): blocks of {@value #BLOCK} draws
 * until the value and both ends of the probabilistically symmetric 95.45 % interval are settled to what two significant
 * digits of the standard uncertainty leave. Pure: equal sources, model and seed give equal figures on every machine.
 */
public final class MonteCarlo {
    /** Draws of a block: at least 100 / (1 − p), which is 2 198, and 10 000 (JCGM 101, 7.9.4 b). */
    static final int BLOCK = 10_000;
    /** More are not drawn: what has not settled by then is told with the tolerance that was reached. */
    static final int BLOCKS_MOST = 200;
    /** A share that is greater than asked by so many of its standard deviations is surely so. */
    private static final int CLEAR = 4;
    /** So many draws are made at the most. */
    static final long TRIALS_MOST = (long) BLOCK * BLOCKS_MOST;

    private final List<Deviate> deviates;
    private final double[] drawn;
    private final Model model;
    private final long seed;

    /**
     * @param sources by key; each is drawn from a stream of its own
     * @param model   what they make, the deviates in the order of {@code sources}
     * @param seed    0 or more and below 2^53
     */
    public MonteCarlo(Map<String, Input> sources, Model model, long seed) {
        Streams streams = new Streams(seed);
        this.deviates = sources.entrySet().stream()
                .map(source -> Deviate.of(source.getValue(), streams.of(source.getKey())))
                .toList();
        this.drawn = new double[sources.size()];
        this.model = model;
        this.seed = seed;
    }

    /** What a block of draws says of each figure. */
    private record Block(double median, double lower, double upper, double standard, double never, double already) {
        static Block of(Draws draws) {
            return new Block(
                    draws.quantile(0.5),
                    draws.quantile(Student.TAIL),
                    draws.quantile(1 - Student.TAIL),
                    draws.standard(),
                    draws.never(),
                    draws.already());
        }

        /** Standard uncertainty; a quarter of the interval where few wild draws make it greater than that. */
        double doubt() {
            double quarter = (upper - lower) / 4;
            return Double.isFinite(quarter) ? Math.min(quarter, standard) : standard;
        }
    }

    /** Draws until the figures are settled. Throws {@link IllegalArgumentException} where no draw has a value. */
    public Propagation propagate() {
        double[] all = new double[0];
        List<Block> blocks = new ArrayList<>();
        double asked;
        double reached;
        do {
            double[] values = draw();
            all = Arrays.copyOf(all, all.length + BLOCK);
            System.arraycopy(values, 0, all, all.length - BLOCK, BLOCK);
            blocks.add(Block.of(new Draws(values)));
            asked = tolerance(
                    blocks.stream().mapToDouble(Block::doubt).average().orElseThrow());
            reached = Math.max(
                    spread(blocks, Block::median),
                    Math.max(spread(blocks, Block::lower), spread(blocks, Block::upper)));
        } while (blocks.size() < 2 || (reached > asked || open(blocks)) && blocks.size() < BLOCKS_MOST);
        return told(new Draws(all), Math.max(asked, reached));
    }

    /** Standard deviation of the quantity if all sources but that one were exact (JCGM 101, annex B). */
    public double alone(int source) {
        double[] values = new double[BLOCK];
        Arrays.fill(drawn, 0);
        for (int i = 0; i < BLOCK; i++) {
            drawn[source] = deviates.get(source).next();
            values[i] = model.value(drawn);
        }
        return new Draws(values).standard();
    }

    private double[] draw() {
        double[] values = new double[BLOCK];
        for (int i = 0; i < BLOCK; i++) {
            for (int source = 0; source < drawn.length; source++) {
                drawn[source] = deviates.get(source).next();
            }
            values[i] = model.value(drawn);
        }
        return values;
    }

    /** Half of the last of two significant digits of a standard uncertainty (JCGM 101, 7.9.2). */
    static double tolerance(double standard) {
        return standard > 0 ? 0.5 * StrictMath.pow(10, Math.floor(StrictMath.log10(standard)) - 1) : 0;
    }

    /** True while some blocks have an end of the interval and others do not, and it may well be there after all. */
    private static boolean open(List<Block> blocks) {
        return open(blocks, Block::lower, Block::already) || open(blocks, Block::upper, Block::never);
    }

    private static boolean open(List<Block> blocks, ToDoubleFunction<Block> end, ToDoubleFunction<Block> beyond) {
        long there = blocks.stream().mapToDouble(end).filter(Double::isFinite).count();
        double share = blocks.stream().mapToDouble(beyond).average().orElseThrow();
        double scatter = Math.sqrt(Student.TAIL / ((double) BLOCK * blocks.size()));
        return there > 0 && there < blocks.size() && share < Student.TAIL + CLEAR * scatter;
    }

    /**
     * Twice the standard deviation of the mean of a figure over the blocks that have it (JCGM 101, 7.9.4 g to k); 0
     * where none has, and there is no figure to settle.
     */
    private static double spread(List<Block> blocks, ToDoubleFunction<Block> figure) {
        double[] values =
                blocks.stream().mapToDouble(figure).filter(Double::isFinite).toArray();
        return values.length < 2 ? 0 : 2 * new Draws(values).standard() / Math.sqrt(values.length);
    }

    private Propagation told(Draws draws, double tolerance) {
        List<Propagation.Quantile> quantiles = new ArrayList<>();
        for (double z = -Propagation.FARTHEST; z <= Propagation.FARTHEST; z += Propagation.STEP) {
            double value = draws.quantile(Student.probability(z, Double.POSITIVE_INFINITY));
            if (Double.isFinite(value)) {
                quantiles.add(new Propagation.Quantile(z, value));
            }
        }
        return new Propagation(
                seed,
                draws.size(),
                draws.mean(),
                draws.standard(),
                tolerance,
                draws.never(),
                draws.already(),
                quantiles);
    }
}
