package dev.lapwing.simulated;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.uncertainty.Streams;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A bench whose plant, unit, transducers and clock are computed, in virtual time: it goes as fast as its caller
 * advances it, and equal files and seeds give equal reports to the last count. For one thread, but for
 * {@link #safe()}.
 */
public final class SimulatedBench implements Bench {
    private static final double SECONDS_PER_NS = 1e-9;

    private final Identity identity;
    private final SimulatedClock clock;
    private final World world;
    private final long stepNs;
    private final Outputs outputs;
    private final CommandQueue queue;
    private final InputSide inputs;
    private final Truth truth;

    private Optional<Truth.Observer> observer = Optional.empty();
    private long plantNs;
    private long nextStepNs;
    private long nowUs = SimulatedClock.START_US;
    private long lastId = Long.MIN_VALUE;
    private boolean armed;
    /** Set by any thread, seen before anything else happens on the bench. */
    private volatile boolean safeAsked;

    private SimulatedBench(
            BenchFile file, LinkChoice.Simulated figures, Wiring wiring, Simulation simulation, long seed)
            throws BenchFailure {
        Streams streams = new Streams(seed);
        long boot = streams.of("boot").nextLong() >>> 32;
        identity = new Identity(file.name(), String.format(Locale.ROOT, "%08x", boot), true);
        clock = new SimulatedClock(
                figures.clockError() * (2 * streams.of("clock").nextDouble() - 1));
        stepNs = Math.round(figures.stepSeconds() * 1e9);
        nextStepNs = stepNs;
        world = new World(wiring, simulation, streams);
        outputs = new Outputs(file, world, streams.of("executed"));
        queue = new CommandQueue(figures.commandDelayUs(), streams.of("command-delay"));
        inputs = new InputSide(file, figures, world::sensing, clock, streams);
        truth = world.truth();
        inputs.note(0);
    }

    /**
     * Opens a simulated bench.
     *
     * @param seed of everything that is drawn: the specimen inside its tolerances, errors, noise, delays
     * @throws BenchFailure if the bench file is not that of a simulated bench, or the files make no train or unit
     */
    public static SimulatedBench open(BenchFile file, Wiring wiring, Simulation simulation, long seed)
            throws BenchFailure {
        if (file.link() instanceof LinkChoice.Simulated figures) {
            return new SimulatedBench(file, figures, wiring, simulation, seed);
        }
        throw new BenchFailure(file.file() + " describes a bench that is not simulated");
    }

    @Override
    public Identity identity() {
        return identity;
    }

    @Override
    public long nowUs() {
        return nowUs;
    }

    /** Whether its outputs are live. */
    public boolean armed() {
        return armed && !safeAsked;
    }

    /** Whether every output is at its safe value, or will be before bench time goes on. */
    public boolean outputsSafe() {
        return safeAsked || outputs.allSafe();
    }

    /** Tells the truth from now on, beside what the bench reports. */
    public void observe(Truth.Observer observer) {
        this.observer = Optional.of(observer);
    }

    @Override
    public void arm() throws BenchFailure {
        if (armed && !safeAsked) {
            throw new BenchFailure("armed: the bench is armed already");
        }
        if (safeAsked) {
            disarm();
        }
        armed = true;
        watch();
    }

    @Override
    public void watch() throws BenchFailure {
        inputs.start(nowUs);
    }

    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        if (!armed()) {
            throw new BenchFailure("not-armed: outputs are driven on an armed bench only");
        }
        if (id <= lastId) {
            throw new BenchFailure("stale: command " + id + " does not come after " + lastId);
        }
        if (atUs < nowUs) {
            throw new BenchFailure("late: command " + id + " was due at " + atUs + " us, it is " + nowUs + " us");
        }
        if (queue.full()) {
            throw new BenchFailure("queue-full: " + CommandQueue.ROOM + " commands wait already");
        }
        int[] points = new int[counts.size()];
        int[] values = new int[counts.size()];
        int n = 0;
        for (Map.Entry<String, Integer> entry : counts.entrySet()) {
            points[n] = outputs.accept(entry.getKey(), entry.getValue());
            values[n++] = entry.getValue();
        }
        lastId = id;
        queue.add(id, points, values, atUs, clock.ns(atUs), overUs * 1000);
    }

    @Override
    public void advance(long untilUs, BenchListener listener) throws BenchFailure {
        inputs.greet(plantNs, listener);
        long untilNs = clock.ns(untilUs);
        while (true) {
            if (safeAsked) {
                becomeSafe(listener);
            }
            long next = Math.min(nextStepNs, Math.max(plantNs, queue.nextNs()));
            if (next > untilNs) {
                break;
            }
            stepTo(next, listener);
        }
        nowUs = Math.max(nowUs, untilUs);
        inputs.flush(listener);
    }

    // The grid of the plant's steps never depends on how far a caller advances: only commands split a step.
    private void stepTo(long ns, BenchListener listener) {
        if (ns > plantNs) {
            world.step((ns - plantNs) * SECONDS_PER_NS);
            plantNs = ns;
            nowUs = Math.max(nowUs, clock.us(ns));
        }
        outputs.move(plantNs);
        if (ns == nextStepNs) {
            nextStepNs += stepNs;
            world.control(plantNs * SECONDS_PER_NS);
        }
        inputs.note(plantNs);
        if (queue.nextNs() <= plantNs) {
            execute(queue.take(), listener);
            inputs.note(plantNs);
        }
        inputs.look(plantNs, listener);
        if (observer.isPresent()) {
            observer.get().at(clock.us(plantNs), truth);
        }
    }

    private void execute(CommandQueue.Command command, BenchListener listener) {
        long measuredUs = outputs.drive(command, plantNs, clock.us(plantNs));
        listener.executed(command.id(), command.dueUs(), measuredUs);
    }

    private void becomeSafe(BenchListener listener) {
        boolean was = armed;
        disarm();
        if (was) {
            listener.safe(nowUs, "host");
        }
    }

    private void disarm() {
        safeAsked = false;
        armed = false;
        queue.drop();
        outputs.safe();
    }

    @Override
    public void safe() {
        safeAsked = true;
    }

    @Override
    public void close() {
        safe();
    }
}
