package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Wire;
import dev.lapwing.link.bench.LivePoints;
import dev.lapwing.uncertainty.Streams;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Plant, unit and transducers as the terminals of a bench that is reached by a real link: the same world as
 * {@link SimulatedBench}'s, with sessions, sets, ramps and streams left to the link's own bench side. For one thread.
 */
public final class SimulatedTerminals implements LivePoints {
    /** How the name of a bench begins that computes what it reports. */
    public static final String NAME_BEGINS = "simulated-";

    private static final int NAME_MAX = 32;
    private static final int QUEUE = 64;
    private static final double SECONDS_PER_NS = 1e-9;

    private final BenchFile file;
    private final SimulatedClock clock;
    private final World world;
    private final Outputs outputs;
    private final InputSide inputs;
    private final long stepNs;
    private final long commandDelayUs;
    private final SplittableRandom delays;

    private long plantNs;
    private long nextStepNs;

    private SimulatedTerminals(
            BenchFile file, LinkChoice.Simulated figures, Wiring wiring, Simulation simulation, long seed)
            throws BenchFailure {
        Streams streams = new Streams(seed);
        this.file = file;
        clock = new SimulatedClock(
                figures.clockError() * (2 * streams.of("clock").nextDouble() - 1));
        stepNs = Math.round(figures.stepSeconds() * 1e9);
        nextStepNs = stepNs;
        world = new World(wiring, simulation, streams);
        outputs = new Outputs(file, world, streams.of("executed"));
        inputs = new InputSide(file, figures, world::sensing, clock, streams);
        commandDelayUs = figures.commandDelayUs();
        delays = streams.of("command-delay");
        inputs.note(0);
    }

    /**
     * Opens the terminals of a simulated bench.
     *
     * @param seed as for {@link SimulatedBench#open}: the same seed gives the same specimen
     * @throws BenchFailure if the bench file is not that of a simulated bench, or the files make no train or unit
     */
    public static SimulatedTerminals open(BenchFile file, Wiring wiring, Simulation simulation, long seed)
            throws BenchFailure {
        if (file.link() instanceof LinkChoice.Simulated figures) {
            return new SimulatedTerminals(file, figures, wiring, simulation, seed);
        }
        throw new BenchFailure(file.file() + " describes a bench that is not simulated: it cannot be served");
    }

    /**
     * What the bench says of itself in real time. Its name begins with {@link #NAME_BEGINS}, so that no host takes it
     * for a real one.
     *
     * @param boot eight hex digits, drawn anew for each start
     */
    public BenchCard card(String boot) {
        return card(boot, 1);
    }

    /**
     * What the bench says of itself as above, where time may go faster.
     *
     * @param speed how much faster than real time it is served; its heartbeat limits are of its own time
     */
    public BenchCard card(String boot, double speed) {
        List<LinkPoint> points = file.points().stream().map(LinkPoint::of).toList();
        int ppm = (int) Math.ceil(file.clockRateBound() * 1e6 - 1e-6);
        int beatMs = (int) Math.round(Wire.BEAT_MS_MAX * speed);
        return new BenchCard(Wire.LINK, name(), boot, ppm, QUEUE, beatMs, Wire.BENCH_BYTES_MAX, true, points);
    }

    private String name() {
        String said = file.name().replaceAll("[^A-Za-z0-9]+", "-");
        String name = said.startsWith(NAME_BEGINS) ? said : NAME_BEGINS + said;
        return name.substring(0, Math.min(NAME_MAX, name.length()));
    }

    @Override
    public long us(long nanos) {
        return clock.us(nanos);
    }

    @Override
    public long nanos(long us) {
        return clock.ns(us);
    }

    @Override
    public void passUntil(long us, Edges edges) {
        ToldEdges told = new ToldEdges(edges);
        long untilNs = clock.ns(us);
        while (plantNs < untilNs) {
            long next = Math.min(nextStepNs, untilNs);
            world.step((next - plantNs) * SECONDS_PER_NS);
            plantNs = next;
            if (plantNs == nextStepNs) {
                nextStepNs += stepNs;
                world.control(plantNs * SECONDS_PER_NS);
            }
            inputs.note(plantNs);
            inputs.look(plantNs, told);
        }
    }

    @Override
    public int read(String point, long nowUs) {
        return inputs.carries(point) ? inputs.read(point, clock.ns(nowUs)) : outputs.counts(point);
    }

    @Override
    public long drive(Map<String, Integer> counts, long nowUs) {
        outputs.driveNow(counts);
        inputs.note(plantNs);
        return nowUs;
    }

    @Override
    public long setDelayUs() {
        return commandDelayUs == 0 ? 0 : delays.nextLong(commandDelayUs + 1);
    }

    /** Passes edges on; nothing else is told by terminals that nobody samples by themselves. */
    private record ToldEdges(Edges edges) implements SelectiveListener {
        @Override
        public void edge(String point, long atUs, boolean level) {
            edges.edge(point, level, atUs);
        }
    }
}
